//! What has to hold for regrowth with any parameters that mean something.

use proptest::prelude::*;
use shared_types::regrowth::{curve::Regrowth, follicles::Follicle, parameters::Parameters};

prop_compose! {
    /// Parameters of a hair that reaches the surface while it grows.
    fn parameters()(
        speed in 0.05..0.5_f64,
        depth in 0.5..4.0_f64,
        growing_above in 1.0..300.0_f64,
        catagen in 0.0..30.0_f64,
        telogen in 1.0..300.0_f64,
        kenogen in 0.0..60.0_f64,
        shape in 1_u32..12,
        scale in 0.5..20.0_f64,
        broken in 0.0..=1.0_f64,
        break_share in 0.0..=1.0_f64,
        lost in 0.0..=1.0_f64,
        keep in 0.9..=1.0_f64,
        washes in 0.0..3.0_f64,
    ) -> Parameters {
        Parameters {
            speed_mm_per_day: speed,
            depth_mm: depth,
            anagen_days: depth / speed + growing_above,
            catagen_days: catagen,
            telogen_days: telogen,
            kenogen_days: kenogen,
            regrown_90_days: 64.0,
            latency_shape: f64::from(shape),
            latency_scale_days: Some(scale),
            broken_fraction: broken,
            break_depth_mm: depth * break_share,
            lost_fraction: lost,
            wash_keep: keep,
            washes_per_day: washes,
        }
    }
}

proptest! {
    #[test]
    fn shares_stay_shares_and_never_fall(given in parameters(), day in 0.0..400.0_f64, later in 0.0..100.0_f64) {
        let regrowth = Regrowth::new(given).unwrap();
        for share in [regrowth.visible(day), regrowth.emerged(day), regrowth.tint_kept(day)] {
            prop_assert!((0.0..=1.0).contains(&share), "{share}");
        }
        // Rounding may take the last digit.
        prop_assert!(regrowth.visible(day + later) >= regrowth.visible(day) - 1e-12);
        prop_assert!(regrowth.emerged(day + later) >= regrowth.emerged(day));
        prop_assert!(regrowth.tint_kept(day + later) <= regrowth.tint_kept(day) + 1e-12);
    }

    #[test]
    fn nothing_is_to_be_seen_at_the_visit_and_no_rooted_hair_before_its_transit(given in parameters()) {
        let regrowth = Regrowth::new(given).unwrap();
        prop_assert_eq!(regrowth.visible(0.0), 0.0);
        prop_assert_eq!(regrowth.emerged(regrowth.transit), 0.0);
        prop_assert_eq!(regrowth.tint_kept(0.0), 1.0);
        prop_assert_eq!(regrowth.tint_kept(regrowth.cycle.total()), 0.0);
    }

    #[test]
    fn in_the_end_all_but_the_lost_are_back(given in parameters()) {
        let regrowth = Regrowth::new(given).unwrap();
        let lost = (1.0 - regrowth.hidden_share()) * (1.0 - given.broken_fraction) * given.lost_fraction;
        prop_assert!((regrowth.visible(5000.0) - (1.0 - lost)).abs() < 1e-9);
    }

    #[test]
    fn a_longer_hold_is_never_reached_sooner(
        given in parameters(), day in 0.0..400.0_f64, length in 0.0..5.0_f64, more in 0.0..5.0_f64,
    ) {
        let regrowth = Regrowth::new(given).unwrap();
        prop_assert!(regrowth.graspable(day, length) <= regrowth.visible(day) + 1e-12);
        prop_assert!(regrowth.graspable(day, length + more) <= regrowth.graspable(day, length) + 1e-12);
        let (sooner, later) = (regrowth.first_day_graspable(0.1, length), regrowth.first_day_graspable(0.1, length + more));
        prop_assert!(later.is_none() || (sooner.is_some() && sooner <= later));
    }

    #[test]
    fn the_shares_of_the_cycle_sum_to_one_and_do_not_change_with_its_pace(given in parameters(), pace in 0.1..10.0_f64) {
        let cycle = Regrowth::new(given).unwrap().cycle;
        prop_assert!((cycle.shares().iter().sum::<f64>() - 1.0).abs() < 1e-12);
        let slower = shared_types::regrowth::cycle::Cycle {
            anagen: cycle.anagen * pace,
            catagen: cycle.catagen * pace,
            telogen: cycle.telogen * pace,
            kenogen: cycle.kenogen * pace,
        };
        for (one, other) in cycle.shares().iter().zip(slower.shares()) {
            prop_assert!((one - other).abs() < 1e-12);
        }
    }

    #[test]
    fn half_the_speed_doubles_the_transit_and_leaves_the_latency(given in parameters()) {
        let slow = Parameters {
            speed_mm_per_day: given.speed_mm_per_day / 2.0,
            anagen_days: given.anagen_days * 2.0,
            ..given
        };
        let (fast, slow) = (Regrowth::new(given).unwrap(), Regrowth::new(slow).unwrap());
        prop_assert!((slow.transit - 2.0 * fast.transit).abs() < 1e-9);
        prop_assert_eq!(slow.latency, fast.latency);
    }

    #[test]
    fn quantile_and_distribution_undo_each_other(given in parameters(), share in 0.001..0.999_f64) {
        let regrowth = Regrowth::new(given).unwrap();
        let day = regrowth.emergence_days(share);
        prop_assert!((regrowth.emerged(day) - share).abs() < 1e-9);
    }

    /// At pace s everything that is a time divides by s.
    #[test]
    fn a_pace_divides_every_time(given in parameters(), pace in 0.6..1.7_f64, day in 0.0..300.0_f64, share in 0.01..0.99_f64) {
        let grown_back = given.break_depth_mm / given.speed_mm_per_day;
        // Rounding may put a day on the other side of the one on which broken hairs show.
        prop_assume!((day * pace - grown_back).abs() > 1e-6);
        let (common, own) = (Regrowth::new(given).unwrap(), Regrowth::new(given.at_pace(pace)).unwrap());
        prop_assert!((own.visible(day) - common.visible(day * pace)).abs() < 1e-9);
        prop_assert!((own.lift_kept(day) - common.lift_kept(day * pace)).abs() < 1e-9);
        let (later, days) = (common.emergence_days(share), own.emergence_days(share));
        prop_assert!((days * pace - later).abs() < 1e-9 * later);
        prop_assert!((given.at_pace(pace).full_length_mm() - given.full_length_mm()).abs() < 1e-9);
    }

    #[test]
    fn the_moment_of_a_share_is_the_first_at_which_it_is_reached(given in parameters(), share in 0.01..0.99_f64) {
        let regrowth = Regrowth::new(given).unwrap();
        if let Some(days) = regrowth.days_until_visible(share) {
            prop_assert!(regrowth.visible(days) >= share);
            prop_assert!(regrowth.visible(days - 1e-6) < share);
        } else {
            prop_assert!(regrowth.visible(3650.0) < share);
        }
    }

    #[test]
    fn a_lift_is_kept_longer_than_a_tint(given in parameters(), day in 0.0..400.0_f64, later in 0.0..100.0_f64) {
        let regrowth = Regrowth::new(given).unwrap();
        prop_assert!((0.0..=1.0).contains(&regrowth.lift_kept(day)));
        prop_assert!(regrowth.lift_kept(day + later) <= regrowth.lift_kept(day));
        prop_assert!(regrowth.tint_kept(day) <= regrowth.lift_kept(day) + 1e-12);
    }

    #[test]
    fn a_single_hair_stays_within_what_hairs_can_be(given in parameters(), seed in any::<u64>(), place in 0..1000_u64, day in 0.0..400.0_f64) {
        let regrowth = Regrowth::new(given).unwrap();
        let follicle = Follicle::draw(&regrowth, seed, place);
        for hair in [follicle.after_removal(&regrowth, day), follicle.left_standing(&regrowth, day)] {
            prop_assert!((0.0..=given.full_length_mm() + 1e-9).contains(&hair.length_mm));
            prop_assert!((0.0..=1.0).contains(&hair.tint));
            prop_assert!(hair.shows() || hair.length_mm == 0.0);
        }
        prop_assert!(!follicle.after_removal(&regrowth, 0.0).shows());
    }
}
