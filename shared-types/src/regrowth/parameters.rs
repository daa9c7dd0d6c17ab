//! The numbers that the model runs on.

use serde::{Deserialize, Serialize};

use crate::catalogue::hair::{AgeFigures, HairFigures};

/// The values of [`HairFigures`], without their sources.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Parameters {
    pub speed_mm_per_day: f64,
    pub depth_mm: f64,
    pub anagen_days: f64,
    pub catagen_days: f64,
    pub telogen_days: f64,
    pub kenogen_days: f64,
    pub regrown_90_days: f64,
    pub latency_shape: f64,
    /// `None`: calibrated so that `regrown_90_days` comes true.
    pub latency_scale_days: Option<f64>,
    pub broken_fraction: f64,
    pub break_depth_mm: f64,
    pub lost_fraction: f64,
    pub wash_keep: f64,
    pub washes_per_day: f64,
}

/// A parameter with which the model means nothing.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[error("{name}: given {given}; allowed is {allowed}")]
pub struct ParameterError {
    pub name: &'static str,
    pub given: f64,
    pub allowed: String,
}

impl From<&HairFigures> for Parameters {
    fn from(figures: &HairFigures) -> Self {
        Self {
            speed_mm_per_day: figures.speed_mm_per_day.value,
            depth_mm: figures.depth_mm.value,
            anagen_days: figures.anagen_days.value,
            catagen_days: figures.catagen_days.value,
            telogen_days: figures.telogen_days.value,
            kenogen_days: figures.kenogen_days.value,
            regrown_90_days: figures.regrown_90_days.value,
            latency_shape: figures.latency_shape.value,
            latency_scale_days: figures
                .latency_scale_days
                .as_ref()
                .map(|figure| figure.value),
            broken_fraction: figures.broken_fraction.value,
            break_depth_mm: figures.break_depth_mm.value,
            lost_fraction: figures.lost_fraction.value,
            wash_keep: figures.wash_keep.value,
            washes_per_day: figures.washes_per_day.value,
        }
    }
}

impl Parameters {
    /// Every parameter as a bare list; 0 for a scale that follows from the 90 % time.
    pub fn in_order(&self) -> Vec<f64> {
        vec![
            self.speed_mm_per_day,
            self.depth_mm,
            self.anagen_days,
            self.catagen_days,
            self.telogen_days,
            self.kenogen_days,
            self.regrown_90_days,
            self.latency_shape,
            self.latency_scale_days.unwrap_or_default(),
            self.broken_fraction,
            self.break_depth_mm,
            self.lost_fraction,
            self.wash_keep,
            self.washes_per_day,
        ]
    }

    /// The parameters from the places of such a list.
    pub fn from_order(at: impl Fn(usize) -> f64) -> Self {
        Self {
            speed_mm_per_day: at(0),
            depth_mm: at(1),
            anagen_days: at(2),
            catagen_days: at(3),
            telogen_days: at(4),
            kenogen_days: at(5),
            regrown_90_days: at(6),
            latency_shape: at(7),
            latency_scale_days: Some(at(8)).filter(|days| *days > 0.0),
            broken_fraction: at(9),
            break_depth_mm: at(10),
            lost_fraction: at(11),
            wash_keep: at(12),
            washes_per_day: at(13),
        }
    }

    /// The same hair in someone of this age: speed and 90 % time of that age, with the latency that follows.
    pub fn at_age(self, age: &AgeFigures) -> Self {
        Self {
            speed_mm_per_day: age.speed_mm_per_day.value,
            regrown_90_days: age.regrown_90_days.value,
            latency_scale_days: None,
            ..self
        }
    }

    /// The same hair in someone whose clock runs `factor` times as fast: every hair comes, grows and goes in `1/factor`
    /// of the days and gets as long as before. Washes follow the calendar and stay.
    pub fn at_pace(self, factor: f64) -> Self {
        Self {
            speed_mm_per_day: self.speed_mm_per_day * factor,
            anagen_days: self.anagen_days / factor,
            catagen_days: self.catagen_days / factor,
            telogen_days: self.telogen_days / factor,
            kenogen_days: self.kenogen_days / factor,
            regrown_90_days: self.regrown_90_days / factor,
            latency_scale_days: self.latency_scale_days.map(|days| days / factor),
            ..self
        }
    }

    /// The length above the skin of a hair that has grown to its end, in mm.
    pub fn full_length_mm(&self) -> f64 {
        self.speed_mm_per_day * self.anagen_days - self.depth_mm
    }

    /// Days that a new hair takes from its bulb to the surface of the skin.
    pub fn transit_days(&self) -> f64 {
        self.depth_mm / self.speed_mm_per_day
    }

    /// The first parameter with which the model means nothing, if there is one.
    pub fn check(&self) -> Result<(), ParameterError> {
        let above = |name, given: f64, floor: f64| {
            within(name, given, given > floor, format!("more than {floor}"))
        };
        let from = |name, given: f64, floor: f64| {
            within(name, given, given >= floor, format!("{floor} or more"))
        };
        let between = |name, given: f64, low: f64, high: f64| {
            within(
                name,
                given,
                (low..=high).contains(&given),
                format!("{low} to {high}"),
            )
        };
        above("speed_mm_per_day", self.speed_mm_per_day, 0.0)?;
        from("depth_mm", self.depth_mm, 0.0)?;
        // A hair that ends its growth below the surface would never be seen.
        above("anagen_days", self.anagen_days, self.transit_days())?;
        from("catagen_days", self.catagen_days, 0.0)?;
        above("telogen_days", self.telogen_days, 0.0)?;
        from("kenogen_days", self.kenogen_days, 0.0)?;
        let whole =
            (1.0..=100.0).contains(&self.latency_shape) && self.latency_shape.fract() == 0.0;
        within(
            "latency_shape",
            self.latency_shape,
            whole,
            "a whole number from 1 to 100".to_owned(),
        )?;
        match self.latency_scale_days {
            Some(scale) => above("latency_scale_days", scale, 0.0)?,
            None => above("regrown_90_days", self.regrown_90_days, self.transit_days())?,
        }
        between("broken_fraction", self.broken_fraction, 0.0, 1.0)?;
        between("break_depth_mm", self.break_depth_mm, 0.0, self.depth_mm)?;
        between("lost_fraction", self.lost_fraction, 0.0, 1.0)?;
        between("wash_keep", self.wash_keep, 0.0, 1.0)?;
        from("washes_per_day", self.washes_per_day, 0.0)
    }
}

/// Infinite and not-a-number are never allowed.
fn within(
    name: &'static str,
    given: f64,
    fits: bool,
    allowed: String,
) -> Result<(), ParameterError> {
    if fits && given.is_finite() {
        Ok(())
    } else {
        Err(ParameterError {
            name,
            given,
            allowed,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_list_leads_back_to_the_same_parameters() {
        let all_different = Parameters::from_order(|place| place as f64 + 1.0);
        let list = all_different.in_order();
        assert_eq!(list, (1..=14).map(f64::from).collect::<Vec<_>>());
        assert_eq!(Parameters::from_order(|place| list[place]), all_different);
        let calibrated = Parameters {
            latency_scale_days: None,
            ..all_different
        };
        let list = calibrated.in_order();
        assert_eq!(Parameters::from_order(|place| list[place]), calibrated);
    }
}
