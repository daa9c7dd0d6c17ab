//! What has to hold for a clock whatever was seen, and for a forecast at any pace.

#![cfg(test)]

mod support;

use proptest::prelude::*;
use shared_types::regrowth::{
    clock::{Clock, Evidence, Pace, Seen, Sighting},
    curve::Regrowth,
};
use support::{BROW, brow, clock_rules as rules};

fn seen() -> impl Strategy<Value = Seen> {
    (0..Seen::ALL.len()).prop_map(|index| Seen::ALL[index])
}

prop_compose! {
    fn sighting()(first in any::<bool>(), seen in seen(), days in 1.0..200.0_f64) -> Sighting {
        if first { Sighting::FirstHairs { days } } else { Sighting::Share { seen, days } }
    }
}

fn evidence() -> impl Strategy<Value = Vec<Evidence>> {
    let seen = sighting().prop_map(|one| Evidence::of_sighting(one, &brow(), &rules()).unwrap());
    let timed = (1.0..200.0_f64, 1.0..200.0_f64)
        .prop_map(|(predicted, observed)| Evidence::of_days(predicted, observed).unwrap());
    prop::collection::vec(prop_oneof![seen, timed], 0..6)
}

proptest! {
    #[test]
    fn the_order_of_what_was_seen_does_not_matter(all in evidence()) {
        let mut turned = all.clone();
        turned.reverse();
        let (one, other) = (Clock::observed(&rules(), &all), Clock::observed(&rules(), &turned));
        prop_assert!((one.mean - other.mean).abs() < 1e-9 && (one.sd - other.sd).abs() < 1e-9);
    }

    /// Whatever is seen, nobody is less sure than before anything was: the chance of a range is log-concave in the clock,
    /// and such a weight never widens a normal belief (Brascamp & Lieb 1976, J. Funct. Anal. 22:366-389, theorem 4.1; from
    /// memory). One sighting more may widen it again, when it contradicts the ones before.
    #[test]
    fn what_was_seen_never_makes_less_sure_than_nothing(all in evidence()) {
        let clock = Clock::observed(&rules(), &all);
        let unseen = Clock::unseen(&rules()).sd;
        prop_assert!(clock.sd <= unseen + 1e-9, "{} after {unseen}", clock.sd);
        prop_assert!(clock.sd > 0.0);
    }

    /// Times alone never contradict: with each one more the deviation shrinks (10.5: "sd never grows").
    #[test]
    fn one_time_more_makes_surer(times in prop::collection::vec((1.0..200.0_f64, 1.0..200.0_f64), 1..8)) {
        let all: Vec<_> = times.iter().map(|(predicted, observed)| Evidence::of_days(*predicted, *observed).unwrap()).collect();
        let mut sd = Clock::unseen(&rules()).sd;
        for n in 1..=all.len() {
            let clock = Clock::observed(&rules(), &all[..n]);
            prop_assert!(clock.sd < sd, "{} after {sd}", clock.sd);
            sd = clock.sd;
        }
    }

    #[test]
    fn a_factor_and_its_band_stay_within_bounds(all in evidence(), share in 0.05..0.99_f64) {
        let clock = Clock::observed(&rules(), &all);
        let (low, high) = clock.band(share);
        prop_assert!(0.6 <= low && low <= clock.factor() && clock.factor() <= high && high <= 1.7);
    }

    /// With n times of mean y, the mean is w y and w = n p / (n p + q) is below 1.
    #[test]
    fn times_move_the_clock_towards_them_and_never_past(times in prop::collection::vec((20.0..120.0_f64, 20.0..120.0_f64), 1..8)) {
        let all: Vec<_> = times.iter().map(|(predicted, observed)| Evidence::of_days(*predicted, *observed).unwrap()).collect();
        let n = times.len() as f64;
        let mean = times.iter().map(|(predicted, observed)| (predicted / observed).ln()).sum::<f64>() / n;
        let weight = n * 0.0225 / (n * 0.0225 + 0.04);
        let clock = Clock::observed(&rules(), &all);
        prop_assert!((clock.mean - weight * mean).abs() < 1e-12);
        prop_assert!((clock.sd - (0.0225 * 0.04 / (n * 0.0225 + 0.04)).sqrt()).abs() < 1e-12);
    }

    #[test]
    fn more_hair_on_the_same_day_never_means_a_slower_clock(days in 5.0..150.0_f64) {
        let factors: Vec<f64> = Seen::ALL.iter().map(|seen| {
            let one = Evidence::of_sighting(Sighting::Share { seen: *seen, days }, &brow(), &rules()).unwrap();
            Clock::observed(&rules(), &[one]).factor()
        }).collect();
        prop_assert!(factors.is_sorted(), "{factors:?}");
    }

    /// At pace s everything that is a time divides by s, and lengths stay.
    #[test]
    fn a_pace_divides_every_time(pace in 0.6..1.7_f64, day in 0.0..300.0_f64, length in 0.0..6.0_f64, share in 0.01..0.99_f64) {
        let own = Regrowth::new(BROW.at_pace(pace)).unwrap();
        let brow = brow();
        // Rounding may put a day on the other side of the one on which broken hairs show.
        prop_assume!((day * pace - 0.5 / 0.16).abs() > 1e-6 && ((day * pace) - length / 0.16 - 0.5 / 0.16).abs() > 1e-6);
        prop_assert!((own.visible(day) - brow.visible(day * pace)).abs() < 1e-9);
        prop_assert!((own.graspable(day, length) - brow.graspable(day * pace, length)).abs() < 1e-9);
        prop_assert!((own.lift_kept(day) - brow.lift_kept(day * pace)).abs() < 1e-9);
        prop_assert!((own.emergence_days(share) * pace - brow.emergence_days(share)).abs() < 1e-9);
        prop_assert!((BROW.at_pace(pace).full_length_mm() - BROW.full_length_mm()).abs() < 1e-9);
        prop_assert!((BROW.at_pace(pace).colour_kept(day) - BROW.colour_kept(day)).abs() < 1e-12);
    }

    #[test]
    fn the_moment_of_a_share_undoes_the_curve(share in 0.15..0.99_f64) {
        let days = brow().days_until_visible(share).unwrap();
        prop_assert!((brow().visible(days) - share).abs() < 1e-9);
    }
}

#[test]
fn nothing_seen_leaves_the_clock_at_one() {
    let clock = Clock::observed(&rules(), &[]);
    assert_eq!(clock, Clock::unseen(&rules()));
    assert_eq!(clock.factor(), 1.0);
}

#[test]
fn twice_the_time_again_and_again_halves_the_clock_up_to_its_bound() {
    let slow = vec![Evidence::of_days(40.0, 80.0).unwrap(); 10_000];
    let clock = Clock::observed(&rules(), &slow);
    assert!((clock.mean - 0.5_f64.ln()).abs() < 1e-3, "{}", clock.mean);
    assert_eq!(clock.factor(), 0.6, "given within its bounds");
}

#[test]
fn all_back_after_half_a_year_says_next_to_nothing() {
    let late = Sighting::Share {
        seen: Seen::AllBack,
        days: 180.0,
    };
    let clock = Clock::observed(
        &rules(),
        &[Evidence::of_sighting(late, &brow(), &rules()).unwrap()],
    );
    assert!((clock.factor() - 1.0).abs() < 0.01, "{}", clock.factor());
}

#[test]
fn days_that_mean_nothing_are_no_evidence() {
    for days in [0.0, -3.0, f64::NAN, f64::INFINITY] {
        assert_eq!(Evidence::of_days(64.0, days), None);
        assert_eq!(Evidence::of_days(days, 64.0), None);
        for sighting in [
            Sighting::FirstHairs { days },
            Sighting::Share {
                seen: Seen::Half,
                days,
            },
        ] {
            assert_eq!(Evidence::of_sighting(sighting, &brow(), &rules()), None);
        }
    }
}

/// The borders lie half-way between the five, and each belongs to the greater share.
#[test]
fn the_nearest_of_five_is_taken() {
    let seen = |share| Seen::nearest(share, &rules());
    let expected = [
        (0.0, Seen::AlmostNone),
        (0.12, Seen::AlmostNone),
        (0.125, Seen::Quarter),
        (0.25, Seen::Quarter),
        (0.375, Seen::Half),
        (0.6, Seen::Half),
        (0.625, Seen::ThreeQuarters),
        (0.875, Seen::AllBack),
        (1.0, Seen::AllBack),
    ];
    for (share, one) in expected {
        assert_eq!(seen(share), one, "{share}");
    }
}

#[test]
fn a_pace_is_told_alike_to_either_side() {
    for factor in [1.0, 1.029, 1.03, 1.05, 1.0999, 1.1, 1.3] {
        let place = |factor: f64| {
            let pace = Pace::of(factor, &rules());
            Pace::ALL.iter().position(|one| *one == pace).unwrap()
        };
        // A hair's breadth inside, since 1 / 1.03 is rounded.
        assert_eq!(place(factor) + place(1.0 / factor - 1e-12), 4, "{factor}");
    }
    assert_eq!(Pace::of(1.0, &rules()), Pace::AsMost);
    assert_eq!(Pace::of(1.0492, &rules()), Pace::LittleFaster);
    assert_eq!(Pace::of(0.8, &rules()), Pace::Slower);
}
