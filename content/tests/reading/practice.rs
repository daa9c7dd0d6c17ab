//! When to come back as a studio works, with the shipped figures.

use std::sync::LazyLock;

use Treatment::{BrowTint, BrowWax};
use chrono::{DateTime, NaiveDate};
use content::Content;
use proptest::prelude::*;
use shared_types::{
    care_plan::{
        Aim, NextVisit, OwnInterval, Person, PlanFor, Practice, Timing, Weekday, WindowReason,
        own::Beside, plan, regrowth, regrowth_after,
    },
    visit::{Findings, Treatment},
};

static CONTENT: LazyLock<Content> = LazyLock::new(|| Content::built_in().unwrap());

fn visit_date() -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 10, 24).unwrap()
}

fn next(treatments: &[Treatment], practice: &Practice) -> NextVisit {
    let visit = PlanFor {
        finished_at: DateTime::from_timestamp(1_792_863_000, 0).unwrap(),
        local_date: visit_date(),
        treatments,
        findings: Findings::default(),
        person: &Person::default(),
        practice,
        beside: Beside::default(),
    };
    plan(&CONTENT.catalogue, &visit).unwrap().next_visit
}

fn day(date: NaiveDate) -> i64 {
    (date - visit_date()).num_days()
}

fn suggested(next: &NextVisit) -> (i64, i64) {
    let span = next.suggested.unwrap();
    (day(span.from), day(span.until))
}

fn aiming_at(prefers: Aim) -> Practice {
    Practice {
        prefers,
        ..Practice::default()
    }
}

fn own(earliest: u16, best: u16, latest: u16) -> OwnInterval {
    let some = |days| (days > 0).then_some(days);
    OwnInterval {
        earliest_days: some(earliest),
        best_days: some(best),
        latest_days: some(latest),
        knowingly_sooner: false,
    }
}

fn with(treatment: Treatment, own: OwnInterval) -> Practice {
    Practice {
        intervals: [(treatment, own)].into(),
        ..Practice::default()
    }
}

/// The regrowth fact sheet, 10.6 (8): at 28 days about 8 % of hairs reach 3 mm, and half do at 59 days; its table 10.4
/// gives 0.0820 and, at 8 and 9 weeks, 0.4326 and 0.5999.
#[test]
fn four_weeks_catch_one_hair_in_ten_and_a_fuller_result_takes_eight() {
    let found = next(&[BrowWax], &Practice::default()).alternative.unwrap();
    assert_eq!((found.treatment, found.tidy_day), (BrowWax, 28));
    assert_eq!(found.tidy_share, 82);
    // Four in ten (0.40 to 0.50 are enough for a full wax: our assumption) come between weeks 7 (0.2631) and 8 (0.4326).
    assert!((50..=56).contains(&found.full_day), "{found:?}");
    assert_eq!(day(found.full_from), i64::from(found.full_day));
    assert!((400..420).contains(&found.full_share), "{found:?}");
    let latest = next(&[BrowWax], &Practice::default()).windows[0].latest;
    assert_eq!(day(latest), 59);
}

#[test]
fn the_alternative_is_told_only_when_it_tells_something() {
    assert_eq!(next(&[BrowTint], &Practice::default()).alternative, None);
    // A studio that waits nine weeks catches 60 of 100 (table 10.4): there is nothing to add.
    let late = with(BrowWax, own(0, 63, 0));
    assert_eq!(next(&[BrowWax], &late).alternative, None);
    let own_best = next(&[BrowWax], &with(BrowWax, own(0, 42, 0)));
    let found = own_best.alternative.unwrap();
    // 0.1465 at 6 weeks, table 10.4; this model waits and grows as that one.
    assert_eq!((found.tidy_day, found.tidy_share), (42, 147));
}

#[test]
fn what_the_studio_aims_at_moves_the_suggestion() {
    let wax = |aim| suggested(&next(&[BrowWax], &aiming_at(aim)));
    let window = &next(&[BrowWax], &Practice::default()).windows[0];
    let [earliest, best, comfortable, latest] = [
        window.earliest,
        window.best,
        window.comfortable_until,
        window.latest,
    ]
    .map(day);
    assert_eq!(wax(Aim::Balanced), (best, comfortable));
    assert_eq!(wax(Aim::ShapeUpkeep), (earliest, best));
    let (from, until) = wax(Aim::FullRegrowth);
    let rules = &CONTENT.catalogue.rebook;
    let removal = CONTENT.catalogue.treatments[&BrowWax]
        .removal
        .as_ref()
        .unwrap();
    let hair = regrowth_after(
        &CONTENT.catalogue,
        CONTENT.catalogue.treatments[&BrowWax].area,
        removal,
    )
    .unwrap();
    let held = |day: i64| hair.graspable(day as f64, removal.graspable_mm.value);
    assert!(
        held(from) >= rules.graspable_full.value && held(from - 1) < rules.graspable_full.value
    );
    assert_eq!(until, latest);
    // An aim at what was not done changes nothing.
    assert_eq!(wax(Aim::ColourKept), wax(Aim::Balanced));
    assert_eq!(next(&[BrowWax], &aiming_at(Aim::ColourKept)).led_by, None);
}

#[test]
fn a_tint_that_leads_is_still_even_and_lets_the_rest_wait() {
    let next = next(&[BrowWax, BrowTint], &aiming_at(Aim::ColourKept));
    assert_eq!(next.led_by, Some(Aim::ColourKept));
    let (from, until) = suggested(&next);
    let hair = regrowth(
        &CONTENT.catalogue,
        CONTENT.catalogue.treatments[&BrowTint].area,
        1.0,
    )
    .unwrap();
    assert!(from >= 28, "the trade's four weeks");
    assert!(hair.tint_kept(until as f64) >= CONTENT.catalogue.rebook.tint_even.value);
}

#[test]
fn done_together_the_sooner_one_waits() {
    let next = next(&[BrowWax, BrowTint], &Practice::default());
    let waits: Vec<_> = next
        .waits
        .iter()
        .map(|wait| (wait.treatment, wait.timing))
        .collect();
    assert_eq!(waits, [(BrowWax, Timing::CanWait)]);
}

#[test]
fn the_studios_days_and_the_models_both_stay() {
    let plain = next(&[BrowWax], &Practice::default()).windows.remove(0);
    assert_eq!(plain.usual, None);
    let set = next(&[BrowWax], &with(BrowWax, own(0, 42, 0)))
        .windows
        .remove(0);
    assert_eq!((day(set.best), set.reason), (42, WindowReason::Own));
    let usual = set.usual.unwrap();
    assert_eq!(
        (usual.earliest, usual.best, usual.latest, usual.reason),
        (plain.earliest, plain.best, plain.latest, plain.reason)
    );
    // The same days as without: nothing differs, and nothing is said beside it.
    let same = own(day(plain.earliest) as u16, day(plain.best) as u16, 0);
    let same = next(&[BrowWax], &with(BrowWax, same)).windows.remove(0);
    assert_eq!((same.reason, same.usual), (WindowReason::Own, None));
}

/// Six weeks at the least between two laminations: common practice, no source.
#[test]
fn six_weeks_hold_unless_the_artist_means_less() {
    let lamination = |own: OwnInterval| {
        let next = next(
            &[Treatment::BrowLamination],
            &with(Treatment::BrowLamination, own),
        );
        let window = &next.windows[0];
        (day(window.earliest), suggested(&next).0, window.reason)
    };
    let (earliest, _, reason) = lamination(OwnInterval::default());
    assert_eq!((earliest, reason), (42, WindowReason::Interval));
    assert_eq!(lamination(own(28, 35, 0)), (42, 42, WindowReason::Own));
    let meant = OwnInterval {
        knowingly_sooner: true,
        ..own(28, 35, 0)
    };
    assert_eq!(lamination(meant), (28, 35, WindowReason::OwnSooner));
}

fn any_own() -> impl Strategy<Value = OwnInterval> {
    let days = || prop::option::of(0u16..120);
    (days(), days(), days(), any::<bool>()).prop_map(
        |(earliest_days, best_days, latest_days, knowingly_sooner)| OwnInterval {
            earliest_days,
            best_days,
            latest_days,
            knowingly_sooner,
        },
    )
}

fn any_practice() -> impl Strategy<Value = Practice> {
    let treatments = prop::sample::select(Treatment::ALL);
    (
        prop::collection::btree_map(treatments, any_own(), 0..3),
        prop::collection::btree_set(prop::sample::select(Weekday::ALL), 0..7),
        prop::sample::select(Aim::ALL),
    )
        .prop_map(|(intervals, closed, prefers)| Practice {
            intervals,
            closed,
            prefers,
            patch_test_days: None,
        })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    #[test]
    fn every_plan_keeps_its_promises(
        practice in any_practice(),
        done in prop::collection::btree_set(prop::sample::select(Treatment::ALL), 1..4),
    ) {
        let done: Vec<Treatment> = done.into_iter().collect();
        let next = next(&done, &practice);
        let span = next.suggested.unwrap();
        prop_assert!(span.from <= span.until);
        for window in &next.windows {
            let order = [visit_date(), window.earliest, window.best, window.comfortable_until, window.latest];
            prop_assert!(order.is_sorted(), "{order:?}");
            prop_assert!(span.from >= window.earliest);
            let meant = practice.intervals.get(&window.treatment).is_some_and(|own| own.knowingly_sooner);
            let least = CONTENT.catalogue.treatments[&window.treatment].interval.earliest_days;
            prop_assert!(meant || day(window.earliest) >= i64::from(least), "before the trade's earliest day");
        }
        let last = next.windows.iter().map(|window| window.latest).max().unwrap();
        prop_assert!(span.until <= last);
        let open = |date: &NaiveDate| practice.is_open(*date);
        let any_open = span.from.iter_days().take_while(|day| *day <= span.until).any(|day| open(&day));
        if any_open {
            prop_assert!(open(&span.from) && open(&span.until) && !next.no_open_day);
        } else {
            prop_assert!(next.no_open_day);
        }
        // As frozen with a visit.
        let json = serde_json::to_string(&next).unwrap();
        prop_assert_eq!(serde_json::from_str::<NextVisit>(&json).unwrap(), next);
    }
}
