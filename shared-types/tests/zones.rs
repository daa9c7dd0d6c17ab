//! The marks of a brow's zones, and how long a zone that is let grow may take.

#![cfg(test)]

mod support;

use chrono::NaiveDate;
use proptest::prelude::*;
use shared_types::{
    catalogue::zones::ZoneRules,
    page::form::Filled,
    regrowth::curve::Regrowth,
    words::Words,
    zones::{Mark, NotZones, Place, Side, Zone, Zones, growing_since, said, wait},
};

use support::{BROW, figure};

fn rules(gap_closing: f64, hope_times: f64, longest: f64) -> ZoneRules {
    ZoneRules {
        gap_closing: figure(gap_closing),
        hope_times: figure(hope_times),
        longest_hope_days: figure(longest),
    }
}

fn place(side: Side, zone: Zone) -> Place {
    Place { side, zone }
}

fn mark() -> impl Strategy<Value = Option<Mark>> {
    prop::option::of(prop::sample::select(Mark::ALL))
}

fn zones() -> impl Strategy<Value = Zones> {
    prop::collection::vec(mark(), Place::COUNT).prop_map(|marks| {
        let mut zones = Zones::default();
        for (place, mark) in Place::all().zip(marks) {
            zones.set(place, mark);
        }
        zones
    })
}

fn day(number: u32) -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 1, 1).unwrap() + chrono::Days::new(number.into())
}

proptest! {
    #[test]
    fn marks_travel(zones in zones()) {
        let text = String::from(zones);
        prop_assert_eq!(text.len(), 12);
        prop_assert_eq!(Zones::try_from(text), Ok(zones));
        let mut form = Filled::default();
        form.put("zone_left_front", "keep_tidy");
        zones.put_in(&mut form);
        prop_assert!(!Zones::is_mistaken(&form));
        prop_assert_eq!(Zones::in_form(&form), zones);
    }

    #[test]
    fn what_is_marked_now_goes_over_what_was_kept(new in zones(), kept in zones()) {
        let both = new.over(kept);
        for place in Place::all() {
            prop_assert_eq!(both.mark(place), new.mark(place).or(kept.mark(place)));
        }
    }

    /// Nobody is told to give up before the gap should have begun to close, whatever the figures; and who is slower is
    /// asked to wait no less.
    #[test]
    fn hope_ends_no_sooner_than_the_gap_begins_to_close(
        pace in 0.6..1.7_f64,
        slower in 1.0..2.0_f64,
        share in 0.01..0.99_f64,
        times in 1.0..4.0_f64,
        longest in 1.0..400.0_f64,
    ) {
        let rules = rules(share, times, longest);
        let of = |pace| wait(&Regrowth::new(BROW.at_pace(pace)).unwrap(), &rules);
        let (own, later) = (of(pace), of(pace / slower));
        prop_assert!(own.begins <= own.hope_until);
        prop_assert!(later.begins >= own.begins && later.hope_until >= own.hope_until);
        prop_assert!(own.begins > 0);
    }

    /// The row of visits is broken by the first one at which the place was not let grow.
    #[test]
    fn time_counts_from_the_first_visit_of_the_unbroken_row(marks in prop::collection::vec(mark(), 0..6)) {
        let arch = place(Side::Right, Zone::Arch);
        let earlier: Vec<(NaiveDate, Zones)> = (1..).zip(&marks).map(|(ago, mark)| {
            let mut zones = Zones::default();
            zones.set(arch, *mark);
            (day(600 - ago * 40), zones)
        }).collect();
        let row = marks.iter().position(|mark| *mark != Some(Mark::LetItGrow)).unwrap_or(marks.len());
        let expected = day(600 - u32::try_from(row).unwrap() * 40);
        prop_assert_eq!(growing_since(arch, day(600), &earlier), expected);
    }
}

#[test]
fn letters_that_are_no_marks_are_refused() {
    for text in ["", "g", "ggggggggggggg", "gggggggggggx", "--------–-"] {
        let refused = Zones::try_from(text.to_owned());
        assert_eq!(refused, Err(NotZones(text.to_owned())));
    }
}

#[test]
fn a_form_says_one_known_thing_of_each_place() {
    let mut form = Filled::default();
    form.put("zone_left_front", "");
    assert!(!Zones::is_mistaken(&form));
    form.put("zone_left_tail", "shave_it");
    assert!(Zones::is_mistaken(&form));
    assert!(Zones::in_form(&form).is_empty());

    let mut twice = Filled::default();
    twice.put("zone_right_tail", "let_it_grow");
    twice.put("zone_right_tail", "nothing_grows");
    assert!(Zones::is_mistaken(&twice));
}

/// Published: 90 % of plucked brow follicles regrown after 64 days (Myers & Hamilton 1951, from a secondary page), so
/// that twice is 128; counts on the face back after 5 to 7 months (Verdich 1984, abstract).
#[test]
fn hope_is_twice_the_published_time_and_no_longer_than_seven_months() {
    let rules = rules(0.2, 2.0, 213.0);
    let hope = |pace| wait(&Regrowth::new(BROW.at_pace(pace)).unwrap(), &rules).hope_until;
    assert_eq!(hope(1.0), 128);
    assert_eq!(hope(2.0), 64);
    assert_eq!(hope(0.5), 213);
}

#[test]
fn what_is_the_same_on_both_sides_is_said_once() {
    let mut words = Words::default();
    for (key, text) in [
        ("list.last", "{most} and {last}"),
        ("side.left", "Left: {zones}."),
        ("side.right", "Right: {zones}."),
        ("side.both", "Both: {zones}."),
        ("zone.front", "front"),
        ("zone.tail", "tail"),
    ] {
        words.insert(key.to_owned(), text.to_owned());
    }
    let say = |places: &[(Side, Zone)]| {
        said(
            &words,
            places.iter().map(|(side, zone)| place(*side, *zone)),
        )
    };
    assert_eq!(say(&[]), "");
    assert_eq!(
        say(&[(Side::Left, Zone::Front), (Side::Left, Zone::Tail)]),
        "Left: front and tail."
    );
    assert_eq!(
        say(&[(Side::Left, Zone::Front), (Side::Right, Zone::Tail)]),
        "Left: front. Right: tail."
    );
    assert_eq!(
        say(&[(Side::Left, Zone::Tail), (Side::Right, Zone::Tail)]),
        "Both: tail."
    );
}
