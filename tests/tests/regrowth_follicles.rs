//! Follicles drawn one by one against the closed forms whose terms they are, for the shipped figures of every area.

#![cfg(test)]

use content::Content;
use shared_types::{
    regrowth::{
        chance,
        curve::Regrowth,
        follicles::{Follicle, Hair, Look},
        parameters::Parameters,
    },
    visit::Area,
};

const FOLLICLES: u64 = 20_000;
const DAYS: [f64; 11] = [
    1.0, 3.0, 5.0, 7.0, 14.0, 28.0, 36.5, 42.0, 56.0, 84.0, 112.0,
];

fn every_area() -> Vec<(Area, Regrowth)> {
    let hair = Content::built_in().unwrap().catalogue.hair;
    hair.iter()
        .map(|(area, figures)| (*area, Regrowth::new(figures.into()).unwrap()))
        .collect()
}

/// The shipped brow with every term of the model at work.
fn brow_with_everything() -> Regrowth {
    let brow = Parameters::from(&Content::built_in().unwrap().catalogue.hair[&Area::Brow]);
    let given = Parameters {
        kenogen_days: 25.0,
        broken_fraction: 0.3,
        lost_fraction: 0.05,
        ..brow
    };
    Regrowth::new(given).unwrap()
}

fn drawn(regrowth: &Regrowth, seed: u64, count: u64) -> Vec<Follicle> {
    (0..count)
        .map(|place| Follicle::draw(regrowth, seed, place))
        .collect()
}

/// Three standard errors of a share p among N, and what counting cannot resolve.
fn near(given: f64, p: f64, count: u64, what: &str) {
    let count = count as f64;
    let within = 3.0 * (p * (1.0 - p) / count).sqrt() + 1e-9;
    assert!(
        (given - p).abs() <= within,
        "{what}: {given}, the closed form says {p}, allowed {within}"
    );
}

fn share(hairs: &[Hair], is: impl Fn(&Hair) -> bool) -> f64 {
    hairs.iter().filter(|hair| is(hair)).count() as f64 / hairs.len() as f64
}

fn check_removal(regrowth: &Regrowth, seed: u64, count: u64, what: &str) {
    let follicles = drawn(regrowth, seed, count);
    for day in DAYS {
        let hairs: Vec<Hair> = follicles
            .iter()
            .map(|one| one.after_removal(regrowth, day))
            .collect();
        let at = |name| format!("{what}, seed {seed}, day {day}, {name}");
        near(
            share(&hairs, Hair::shows),
            regrowth.visible(day),
            count,
            &at("visible"),
        );
        for length in [0.5, 1.0, 2.0, 3.0] {
            // The closed form does not know where a hair ends.
            if length < regrowth.parameters.full_length_mm() {
                near(
                    share(&hairs, |hair| hair.shows() && hair.length_mm >= length),
                    regrowth.graspable(day, length),
                    count,
                    &at("graspable"),
                );
            }
        }
    }
}

#[test]
fn follicles_and_closed_form_agree_after_a_removal_in_every_area() {
    for (area, regrowth) in every_area() {
        check_removal(&regrowth, 20_261_024, FOLLICLES, area.term());
    }
    check_removal(
        &brow_with_everything(),
        20_261_024,
        FOLLICLES,
        "every term at work",
    );
}

/// As few as a picture draws.
#[test]
fn six_hundred_hairs_agree_as_well_as_so_few_can() {
    check_removal(&brow_with_everything(), 7, 600, "a picture");
}

/// The colour kept is the share of hairs that were there at the visit, times what washing left them.
#[test]
fn follicles_and_closed_form_agree_about_tint_and_lift() {
    for (area, regrowth) in every_area() {
        let follicles = drawn(&regrowth, 5, FOLLICLES);
        for day in DAYS {
            let hairs: Vec<Hair> = follicles
                .iter()
                .map(|one| one.left_standing(&regrowth, day))
                .collect();
            let coloured = share(&hairs, |hair| hair.tint > 0.0);
            near(
                coloured,
                regrowth.lift_kept(day),
                FOLLICLES,
                &format!("{area}, lift, day {day}"),
            );
            let mean = hairs.iter().map(|hair| hair.tint).sum::<f64>() / FOLLICLES as f64;
            let washed = regrowth.parameters.colour_kept(day);
            near(
                mean / washed,
                regrowth.tint_kept(day) / washed,
                FOLLICLES,
                &format!("{area}, tint, day {day}"),
            );
        }
    }
}

/// Stationary facts hold at any time for hair that is left alone: nothing to be seen in (transit + empty) / cycle.
#[test]
fn hair_left_alone_looks_the_same_on_any_day() {
    let regrowth = brow_with_everything();
    let follicles = drawn(&regrowth, 11, FOLLICLES);
    for day in [0.0, 50.0, 500.0] {
        let hairs: Vec<Hair> = follicles
            .iter()
            .map(|one| one.left_standing(&regrowth, day))
            .collect();
        let unseen = share(&hairs, |hair| !hair.shows());
        near(
            unseen,
            regrowth.hidden_share(),
            FOLLICLES,
            &format!("day {day}"),
        );
        let longest = hairs.iter().map(|hair| hair.length_mm).fold(0.0, f64::max);
        assert!((longest - regrowth.parameters.full_length_mm()).abs() < 0.01);
    }
}

#[test]
fn a_hair_that_shows_stays_and_never_shortens_after_a_removal() {
    let regrowth = brow_with_everything();
    for follicle in drawn(&regrowth, 3, 500) {
        let at = |day: u32| follicle.after_removal(&regrowth, f64::from(day));
        assert!(!at(0).shows());
        for day in 0..180 {
            let (now, next) = (at(day), at(day + 1));
            assert!(!now.shows() || next.shows());
            assert!(next.length_mm >= now.length_mm);
            assert!(now.shows() || now.length_mm == 0.0);
            assert!(now.look != Look::New || next.look == Look::New);
        }
    }
}

#[test]
fn the_same_seed_draws_the_same_hair_and_another_seed_another() {
    let regrowth = brow_with_everything();
    assert_eq!(drawn(&regrowth, 42, 50), drawn(&regrowth, 42, 50));
    assert_ne!(drawn(&regrowth, 42, 50), drawn(&regrowth, 43, 50));
}

/// First numbers of SplitMix64 as its users publish them, for seeds 0 and 1234567; from memory.
#[test]
fn the_generator_is_splitmix64() {
    let first = |seed| [0, 1, 2].map(|place| chance::number(seed, place));
    assert_eq!(
        first(0),
        [
            0xE220_A839_7B1D_CDAF,
            0x6E78_9E6A_A1B9_65F4,
            0x06C4_5D18_8009_454F
        ]
    );
    assert_eq!(
        first(1_234_567),
        [
            6_457_827_717_110_365_317,
            3_203_168_211_198_807_973,
            9_817_491_932_198_370_423
        ]
    );
}

/// Kolmogorov's distance from even, against its 0.1 % point 1.95 / sqrt(n) (Massey 1951 table, from memory), for each of
/// the numbers that a follicle draws, and neighbours uncorrelated within four standard errors.
#[test]
fn the_shares_are_evenly_spread_and_independent() {
    const N: u64 = 40_000;
    for (step, start) in [(1, 0), (4, 0), (4, 1), (4, 2), (4, 3)] {
        let drawn: Vec<f64> = (0..N)
            .map(|n| chance::share(99, n * step + start))
            .collect();
        let mut sorted = drawn.clone();
        sorted.sort_by(f64::total_cmp);
        let distance = sorted
            .iter()
            .enumerate()
            .map(|(n, share)| {
                let (below, above) = (n as f64 / N as f64, (n + 1) as f64 / N as f64);
                (share - below).abs().max((share - above).abs())
            })
            .fold(0.0, f64::max);
        assert!(distance < 1.95 / (N as f64).sqrt(), "{distance}");
        let product: f64 = drawn
            .windows(2)
            .map(|two| (two[0] - 0.5) * (two[1] - 0.5))
            .sum();
        let correlation = product / (N as f64 - 1.0) * 12.0;
        assert!(correlation.abs() < 4.0 / (N as f64).sqrt(), "{correlation}");
    }
}
