//! The forecast as the design spells it, with as many places as mean anything.

use serde::{Serialize, Serializer};
use shared_types::{catalogue::clock::ClockRules, regrowth::clock::Clock};

#[derive(Serialize)]
pub struct Answer {
    pub clock: ClockAnswer,
    pub emergence_days: EmergenceAnswer,
    pub curve: Vec<CurveAnswer>,
    pub tint: Vec<TintAnswer>,
    pub confidence: &'static str,
    pub sources: Vec<String>,
}

#[derive(Serialize)]
pub struct ClockAnswer {
    #[serde(serialize_with = "four_places")]
    pub factor: f64,
    #[serde(serialize_with = "three_places")]
    pub low: f64,
    #[serde(serialize_with = "three_places")]
    pub high: f64,
}

impl ClockAnswer {
    pub fn of(clock: Clock, rules: &ClockRules) -> Self {
        let (low, high) = clock.band(rules.band.value);
        Self {
            factor: clock.factor(),
            low,
            high,
        }
    }
}

/// Of the hairs pulled with the root.
#[derive(Serialize)]
pub struct EmergenceAnswer {
    #[serde(serialize_with = "two_places")]
    pub p10: f64,
    #[serde(serialize_with = "two_places")]
    pub p50: f64,
    #[serde(serialize_with = "two_places")]
    pub p90: f64,
}

#[derive(Serialize)]
pub struct CurveAnswer {
    #[serde(serialize_with = "plain")]
    pub day: f64,
    #[serde(serialize_with = "four_places")]
    pub visible: f64,
    #[serde(serialize_with = "four_places")]
    pub graspable: f64,
}

#[derive(Serialize)]
pub struct TintAnswer {
    #[serde(serialize_with = "plain")]
    pub day: f64,
    #[serde(serialize_with = "four_places")]
    pub kept: f64,
}

fn rounded(value: f64, places: i32) -> f64 {
    let unit = 10_f64.powi(places);
    (value * unit).round() / unit
}

fn two_places<S: Serializer>(value: &f64, to: S) -> Result<S::Ok, S::Error> {
    to.serialize_f64(rounded(*value, 2))
}

fn three_places<S: Serializer>(value: &f64, to: S) -> Result<S::Ok, S::Error> {
    to.serialize_f64(rounded(*value, 3))
}

fn four_places<S: Serializer>(value: &f64, to: S) -> Result<S::Ok, S::Error> {
    to.serialize_f64(rounded(*value, 4))
}

/// A whole day without a point.
fn plain<S: Serializer>(day: &f64, to: S) -> Result<S::Ok, S::Error> {
    if day.fract() == 0.0 {
        // Checked: from 0 to 3650.
        to.serialize_u32(*day as u32)
    } else {
        to.serialize_f64(*day)
    }
}
