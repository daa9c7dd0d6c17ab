//! Figures to test with, apart from the shipped ones: a change of content must not move what holds for any figures.

#![allow(dead_code, reason = "each file of tests takes what it needs")]

pub mod catalogue;

use shared_types::{
    catalogue::{
        clock::ClockRules,
        figure::{Figure, Unit, Verified},
    },
    regrowth::{curve::Regrowth, parameters::Parameters},
};

/// The figures of the eyebrow as the model's reference table takes them.
pub const BROW: Parameters = Parameters {
    speed_mm_per_day: 0.16,
    depth_mm: 2.25,
    anagen_days: 56.0,
    catagen_days: 18.0,
    telogen_days: 90.0,
    kenogen_days: 0.0,
    regrown_90_days: 64.0,
    latency_shape: 4.0,
    latency_scale_days: Some(7.5),
    broken_fraction: 0.1,
    break_depth_mm: 0.5,
    lost_fraction: 0.0,
    wash_keep: 0.99649,
    washes_per_day: 1.0,
};

pub fn brow() -> Regrowth {
    Regrowth::new(BROW).unwrap()
}

/// A figure whose range is itself.
pub fn figure(value: f64) -> Figure {
    Figure {
        value,
        unit: Unit::One,
        low: value,
        high: value,
        source: String::new(),
        verified: Verified::Assumed,
        confidence: None,
    }
}

/// The personal clock as the model specifies it; the words' borders are ours.
pub fn clock_rules() -> ClockRules {
    ClockRules {
        prior_sd: figure(0.15),
        noise_sd: figure(0.20),
        slowest: figure(0.6),
        fastest: figure(1.7),
        band: figure(0.9),
        first_hairs: figure(0.2),
        quarter_from: figure(0.125),
        half_from: figure(0.375),
        three_quarters_from: figure(0.625),
        all_back_from: figure(0.875),
        told_a_little: figure(1.03),
        told_clearly: figure(1.10),
    }
}
