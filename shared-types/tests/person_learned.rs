//! What the visits of one client say about their pace, whatever was seen and in whatever order it is read.

#![cfg(test)]

mod support;

use chrono::{DateTime, TimeDelta, Utc};
use proptest::prelude::*;
use shared_types::{
    care_plan::{
        Person, PlanFor, Practice, Window, WindowReason, learned::removal_before, own::Beside, plan,
    },
    catalogue::flag::Flag,
    regrowth::clock::{Clock, Evidence, Seen, Sighting},
    visit::{Area, Findings, Observation, Observed, Treatment, Visit},
};
use support::{brow, catalogue::catalogue, clock_rules};
use uuid::Uuid;

fn start() -> DateTime<Utc> {
    "2026-03-02T12:00:00Z".parse().unwrap()
}

/// A visit so many days after the first.
fn visit(day: i64, treatment: Treatment, seen: &[Observed]) -> Visit {
    Visit {
        id: Uuid::from_u128(1000 + day as u128),
        client: Uuid::from_u128(1),
        finished_at: start() + TimeDelta::days(day),
        treatments: vec![treatment],
        findings: Findings::default(),
        products: Vec::new(),
        zones: Default::default(),
        note: String::new(),
        observations: seen
            .iter()
            .map(|what| Observation {
                area: Area::Brow,
                what: *what,
            })
            .collect(),
        flags: Vec::new(),
    }
}

fn wax(day: i64, seen: &[Observed]) -> Visit {
    visit(day, Treatment::BrowWax, seen)
}

fn flagged(visit: Visit, flags: &[Flag]) -> Visit {
    Visit {
        flags: flags.to_vec(),
        ..visit
    }
}

fn learned(visits: &[Visit]) -> Person {
    Person::learned(&catalogue(), visits).unwrap()
}

fn share(seen: Seen, days: f64) -> Evidence {
    Evidence::of_sighting(Sighting::Share { seen, days }, &brow(), &clock_rules()).unwrap()
}

#[test]
fn nobody_and_somebody_never_looked_at_are_as_most() {
    assert_eq!(learned(&[]), Person::default());
    assert_eq!(learned(&[wax(0, &[]), wax(40, &[])]), Person::default());
}

#[test]
fn each_sighting_speaks_of_the_latest_removal_before_it() {
    let visits = [
        wax(0, &[]),
        wax(40, &[Observed::Share(Seen::ThreeQuarters)]),
        // A tint removes nothing: the sighting at day 75 is 35 days after the wax of day 40.
        visit(60, Treatment::BrowTint, &[]),
        wax(75, &[Observed::Share(Seen::Half)]),
    ];
    let person = learned(&visits);
    let evidence = [share(Seen::ThreeQuarters, 40.0), share(Seen::Half, 35.0)];
    assert_eq!(
        person.clock,
        Some(Clock::observed(&clock_rules(), &evidence))
    );
    assert_eq!(person.visits_seen, 2);
    let removal = removal_before(&catalogue(), &visits, Area::Brow, visits[3].finished_at)
        .map(|one| (one.visit.id, one.days));
    assert_eq!(removal, Some((visits[1].id, 35.0)));
}

#[test]
fn two_things_seen_at_one_visit_are_one_visit() {
    let both = [Observed::Share(Seen::Half), Observed::FirstHairs(20)];
    let person = learned(&[wax(0, &[]), wax(40, &both)]);
    assert_eq!(person.visits_seen, 1);
    let alone = learned(&[wax(0, &[]), wax(40, &both[..1])]);
    assert!(person.clock.unwrap().sd < alone.clock.unwrap().sd);
}

/// Nothing was removed before the first visit, and no hair of another area either.
#[test]
fn a_sighting_of_nothing_removed_says_nothing() {
    let first = wax(0, &[Observed::Share(Seen::AllBack)]);
    assert_eq!(learned(&[first]), Person::default());
    let mut lip = wax(40, &[Observed::Share(Seen::Half)]);
    lip.observations[0].area = Area::UpperLip;
    assert_eq!(learned(&[wax(0, &[]), lip]), Person::default());
}

#[test]
fn flags_are_those_of_the_latest_visit() {
    let visits = [
        flagged(wax(0, &[]), &[Flag::Chemotherapy]),
        flagged(wax(300, &[]), &[Flag::Pregnancy]),
    ];
    assert_eq!(learned(&visits).flags, [Flag::Pregnancy]);
}

/// A forecast was switched off at the removal, in between, or when it was looked at: what was seen is no pace.
#[test]
fn what_was_seen_while_the_forecast_was_off_does_not_count() {
    let seen = [Observed::Share(Seen::AlmostNone)];
    let off = &[Flag::GrowthSerum, Flag::Chemotherapy];
    let tint = visit(20, Treatment::BrowTint, &[]);
    for flagged_visit in 0..3 {
        let mut visits = [wax(0, &[]), tint.clone(), wax(60, &seen)];
        visits[flagged_visit].flags = off.to_vec();
        assert_eq!(learned(&visits).clock, None, "{flagged_visit}");
    }
    // What widens leaves the sighting as it is; and an old flag does not spoil what is seen later.
    let serum = [wax(0, &[]), flagged(wax(60, &seen), &[Flag::GrowthSerum])];
    assert!(learned(&serum).clock.is_some());
    let later = [flagged(wax(0, &[]), off), wax(300, &[]), wax(360, &seen)];
    assert!(learned(&later).clock.is_some());
}

fn window(person: &Person) -> Window {
    let finished_at = start();
    let visit = PlanFor {
        finished_at,
        local_date: finished_at.date_naive(),
        treatments: &[Treatment::BrowWax],
        findings: Findings::default(),
        person,
        practice: &Practice::default(),
        beside: Beside::default(),
    };
    plan(&catalogue(), &visit).unwrap().next_visit.windows[0].clone()
}

#[test]
fn whoever_is_slower_comes_back_later() {
    let slow = learned(&[wax(0, &[]), wax(45, &[Observed::Share(Seen::Quarter)])]);
    let fast = learned(&[wax(0, &[]), wax(45, &[Observed::Share(Seen::AllBack)])]);
    let (slow, most, fast) = (window(&slow), window(&Person::default()), window(&fast));
    assert!(fast.best < most.best && most.best < slow.best);
    assert!(fast.latest < most.latest && most.latest < slow.latest);
}

fn observed() -> impl Strategy<Value = Observed> {
    prop_oneof![
        (0..Seen::ALL.len()).prop_map(|index| Observed::Share(Seen::ALL[index])),
        (1_u16..60).prop_map(Observed::FirstHairs),
    ]
}

prop_compose! {
    /// Visits on different days, each with up to two things seen.
    fn visits()(gaps in prop::collection::vec((20_i64..120, prop::collection::vec(observed(), 0..3)), 1..6)) -> Vec<Visit> {
        let mut day = 0;
        gaps.into_iter().map(|(gap, seen)| {
            day += gap;
            wax(day, &seen)
        }).collect()
    }
}

fn flags() -> impl Strategy<Value = Vec<Flag>> {
    prop::collection::vec(
        (0..Flag::ALL.len()).prop_map(|index| Flag::ALL[index]),
        0..4,
    )
}

proptest! {
    // A clock is worked out by quadrature for each case, several times over.
    #![proptest_config(ProptestConfig::with_cases(100))]

    #[test]
    fn the_order_in_which_visits_are_read_does_not_matter(visits in visits(), turns in 0_usize..6) {
        let mut turned = visits.clone();
        turned.rotate_left(turns % visits.len());
        turned.reverse();
        prop_assert_eq!(learned(&turned), learned(&visits));
    }

    #[test]
    fn the_order_of_what_was_seen_at_a_visit_does_not_matter(visits in visits()) {
        let mut turned = visits.clone();
        for visit in &mut turned {
            visit.observations.reverse();
        }
        let (one, other) = (learned(&visits), learned(&turned));
        prop_assert_eq!(one.visits_seen, other.visits_seen);
        if let (Some(one), Some(other)) = (one.clock, other.clock) {
            prop_assert!((one.mean - other.mean).abs() < 1e-9 && (one.sd - other.sd).abs() < 1e-9);
        }
    }

    /// Never less sure than before anything was seen. One share more may widen the clock again, when it contradicts the
    /// ones before (see `regrowth_clock.rs`); times alone never do.
    #[test]
    fn what_was_seen_makes_the_clock_surer(visits in visits()) {
        let unseen = Clock::unseen(&clock_rules()).sd;
        let (mut sd, mut seen) = (unseen, 0);
        let mut only_times = true;
        for count in 1..=visits.len() {
            let person = learned(&visits[..count]);
            let now = person.clock.map_or(unseen, |clock| clock.sd);
            prop_assert!(now <= unseen + 1e-9, "{} after nothing", now);
            let shares = |one: &Observation| matches!(one.what, Observed::Share(_));
            only_times &= !visits[count - 1].observations.iter().any(shares);
            if only_times {
                prop_assert!(now <= sd + 1e-9, "{} after {}", now, sd);
            }
            prop_assert!(person.visits_seen >= seen && usize::from(person.visits_seen) < count);
            (sd, seen) = (now, person.visits_seen);
        }
    }

    /// Whatever was seen and flagged: windows are ordered, never before the trade's 21 days, and a flag never narrows.
    #[test]
    fn windows_keep_their_order_and_the_trades_minimum(visits in visits(), flags in flags()) {
        let plain = learned(&visits);
        let flagged = Person { flags: flags.clone(), ..plain.clone() };
        let (plain, wide) = (window(&plain), window(&flagged));
        let day = |date: chrono::NaiveDate| (date - start().date_naive()).num_days();
        for one in [&plain, &wide] {
            let days = [one.earliest, one.best, one.comfortable_until, one.latest].map(day);
            prop_assert!(days.is_sorted() && days[0] >= 21, "{:?}", days);
        }
        // Terms without a rule in this catalogue switch off as well.
        let off = flags.iter().any(|flag| !matches!(flag, Flag::GrowthSerum | Flag::Pregnancy));
        if off {
            prop_assert_eq!(wide.reason, WindowReason::Interval);
            prop_assert_eq!([wide.earliest, wide.best, wide.latest].map(day), [21, 28, 42]);
        } else {
            prop_assert_eq!(wide.best, plain.best);
            prop_assert!(wide.earliest <= plain.earliest && wide.latest >= plain.latest);
            prop_assert!(wide.comfortable_until >= plain.comfortable_until);
        }
    }
}
