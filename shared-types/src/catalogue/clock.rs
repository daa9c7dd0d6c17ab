//! How people differ in the pace of their hair, and how well a pace can be seen.

use serde::{Deserialize, Serialize};

use super::figure::{Figure, Unit};

/// The figures of the personal clock. A clock's factor is above 1 when everything comes sooner; its natural logarithm
/// is taken to be normally distributed over people.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ClockRules {
    /// Deviation of the logarithm between people.
    pub prior_sd: Figure,
    /// Deviation of the logarithm of one observed time about the person's own.
    pub noise_sd: Figure,
    /// No factor is given outside these.
    pub slowest: Figure,
    pub fastest: Figure,
    /// Share of the belief that lies within the band told with a factor.
    pub band: Figure,
    /// "First hairs seen": the share of all hairs that can be seen then.
    pub first_hairs: Figure,
    /// What an artist sees is told by the nearest of five shares; these are the borders between them.
    pub quarter_from: Figure,
    pub half_from: Figure,
    pub three_quarters_from: Figure,
    pub all_back_from: Figure,
    /// From which factor on (and below which inverse) hair is told to come a little sooner or later than most, and from
    /// which on it is told without "a little".
    pub told_a_little: Figure,
    pub told_clearly: Figure,
}

impl ClockRules {
    /// Every figure with its name in the file; they are all shares or bare numbers.
    pub fn all(&self) -> [(&'static str, &Figure, Unit); 12] {
        [
            ("prior_sd", &self.prior_sd, Unit::One),
            ("noise_sd", &self.noise_sd, Unit::One),
            ("slowest", &self.slowest, Unit::One),
            ("fastest", &self.fastest, Unit::One),
            ("band", &self.band, Unit::One),
            ("first_hairs", &self.first_hairs, Unit::One),
            ("quarter_from", &self.quarter_from, Unit::One),
            ("half_from", &self.half_from, Unit::One),
            ("three_quarters_from", &self.three_quarters_from, Unit::One),
            ("all_back_from", &self.all_back_from, Unit::One),
            ("told_a_little", &self.told_a_little, Unit::One),
            ("told_clearly", &self.told_clearly, Unit::One),
        ]
    }

    /// The first figure with which a clock means nothing: its name and what is allowed.
    pub fn fault(&self) -> Option<(&'static str, &'static str)> {
        let borders = [
            ("quarter_from", self.quarter_from.value),
            ("half_from", self.half_from.value),
            ("three_quarters_from", self.three_quarters_from.value),
            ("all_back_from", self.all_back_from.value),
        ];
        let mut below = 0.0;
        for (name, share) in borders {
            if !(share > below && share < 1.0) {
                return Some((name, "more than the border before it, and less than 1"));
            }
            below = share;
        }
        let share = |value: f64| value > 0.0 && value < 1.0;
        [
            ("prior_sd", self.prior_sd.value > 0.0, "more than 0"),
            ("noise_sd", self.noise_sd.value > 0.0, "more than 0"),
            (
                "slowest",
                self.slowest.value > 0.0 && self.slowest.value <= 1.0,
                "more than 0 and at most 1",
            ),
            ("fastest", self.fastest.value >= 1.0, "1 or more"),
            ("band", share(self.band.value), "more than 0, less than 1"),
            (
                "first_hairs",
                share(self.first_hairs.value),
                "more than 0, less than 1",
            ),
            (
                "told_a_little",
                self.told_a_little.value > 1.0,
                "more than 1",
            ),
            (
                "told_clearly",
                self.told_clearly.value > self.told_a_little.value,
                "more than told_a_little",
            ),
        ]
        .into_iter()
        .find(|(_, fits, _)| !fits)
        .map(|(name, _, allowed)| (name, allowed))
    }
}
