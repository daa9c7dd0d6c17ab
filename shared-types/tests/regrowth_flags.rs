//! Flags make a forecast less sure or switch it off, and never the other way.

#![cfg(test)]

mod support;

use std::collections::BTreeMap;

use proptest::prelude::*;
use shared_types::{
    catalogue::flag::{Effect, Flag, FlagRule},
    regrowth::{
        clock::Clock,
        flags::{Outlook, outlook},
    },
};
use support::figure;

const CLOCK: Clock = Clock {
    mean: 0.05,
    sd: 0.12,
    slowest: 0.6,
    fastest: 1.7,
};

fn widen(value: f64) -> FlagRule {
    let factor = figure(value);
    FlagRule {
        effect: Effect::Widen(factor),
        sources: Vec::new(),
    }
}

fn rules() -> BTreeMap<Flag, FlagRule> {
    let off = FlagRule {
        effect: Effect::Off,
        sources: Vec::new(),
    };
    BTreeMap::from([
        (Flag::GrowthSerum, widen(2.0)),
        (Flag::Pregnancy, widen(1.5)),
        (Flag::Chemotherapy, off),
    ])
}

#[test]
fn no_flags_change_nothing() {
    let expected = Outlook::Forecast {
        clock: CLOCK,
        because: Vec::new(),
    };
    assert_eq!(outlook(&rules(), &[], CLOCK), expected);
}

#[test]
fn the_widest_counts_and_the_middle_stays() {
    let flags = [Flag::Pregnancy, Flag::GrowthSerum, Flag::Pregnancy];
    let expected = Outlook::Forecast {
        clock: Clock { sd: 0.24, ..CLOCK },
        because: vec![Flag::GrowthSerum, Flag::Pregnancy],
    };
    assert_eq!(outlook(&rules(), &flags, CLOCK), expected);
}

#[test]
fn what_switches_off_comes_before_what_widens() {
    let flags = [Flag::GrowthSerum, Flag::Chemotherapy];
    let off = |because| Outlook::Off { because };
    assert_eq!(
        outlook(&rules(), &flags, CLOCK),
        off(vec![Flag::Chemotherapy])
    );
    // No rule was given for this one.
    assert_eq!(
        outlook(&rules(), &[Flag::Thyroid], CLOCK),
        off(vec![Flag::Thyroid])
    );
}

proptest! {
    #[test]
    fn a_band_never_narrows(picked in prop::collection::vec(0..Flag::ALL.len(), 0..5), share in 0.1..0.99_f64) {
        let flags: Vec<Flag> = picked.into_iter().map(|index| Flag::ALL[index]).collect();
        if let Outlook::Forecast { clock, .. } = outlook(&rules(), &flags, CLOCK) {
            let ((low, high), (plain_low, plain_high)) = (clock.band(share), CLOCK.band(share));
            prop_assert!(low <= plain_low && high >= plain_high);
            prop_assert_eq!(clock.factor(), CLOCK.factor());
        }
    }
}
