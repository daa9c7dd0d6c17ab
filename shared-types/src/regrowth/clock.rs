//! A person's own pace, learned from what was seen at visits.
//!
//! A factor of 1.1 means that everything comes in 1/1.1 of the days: it moves the whole clock, latency included, and
//! not only the speed ([`super::parameters::Parameters::at_pace`]). z = ln factor is normal over people. Each observation
//! puts y = ln(predicted days / observed days) beside it, which is z with normal noise; like is compared with like, the
//! time of an observed share with the time at which the same share was predicted for a factor of 1.

use std::{fmt, str::FromStr};

use serde::{Deserialize, Serialize};

use super::{curve::Regrowth, normal};
use crate::{
    catalogue::clock::ClockRules,
    visit::{UnknownTerm, terms},
};

terms! {
    /// How much of the hair an artist sees again: the nearest of five.
    Seen {
        AlmostNone = "almost_none",
        Quarter = "quarter",
        Half = "half",
        ThreeQuarters = "three_quarters",
        AllBack = "all_back",
    }
}

terms! {
    /// A person's pace beside that of most people, in words `pace.<term>`.
    Pace {
        Slower = "slower",
        LittleSlower = "little_slower",
        AsMost = "as_most",
        LittleFaster = "little_faster",
        Faster = "faster",
    }
}

impl Seen {
    /// The nearest of the five for a share of all hairs (0 to 1).
    pub fn nearest(share: f64, rules: &ClockRules) -> Self {
        if share < rules.quarter_from.value {
            Seen::AlmostNone
        } else if share < rules.half_from.value {
            Seen::Quarter
        } else if share < rules.three_quarters_from.value {
            Seen::Half
        } else if share < rules.all_back_from.value {
            Seen::ThreeQuarters
        } else {
            Seen::AllBack
        }
    }
}

impl Pace {
    /// In which words a factor is told.
    pub fn of(factor: f64, rules: &ClockRules) -> Self {
        let (little, clearly) = (rules.told_a_little.value, rules.told_clearly.value);
        if factor >= clearly {
            Pace::Faster
        } else if factor >= little {
            Pace::LittleFaster
        } else if factor > 1.0 / little {
            Pace::AsMost
        } else if factor > 1.0 / clearly {
            Pace::LittleSlower
        } else {
            Pace::Slower
        }
    }
}

/// Something seen, so many days after a removal. Days are whole or not, and above 0.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Sighting {
    /// At a visit.
    Share { seen: Seen, days: f64 },
    /// The client saw the first hairs on this day.
    FirstHairs { days: f64 },
}

/// What one observation says about y, the logarithm of predicted over observed days.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Evidence {
    /// Exactly this.
    At(f64),
    /// Somewhere in here; an end may be infinite. "All back" after a long time only says "not slower than", and
    /// "almost none" after a short one only "not faster than".
    Between(f64, f64),
}

impl Evidence {
    /// A time that was predicted and one that was observed for the same thing; `None` unless both are above 0.
    pub fn of_days(predicted: f64, observed: f64) -> Option<Self> {
        let y = (predicted / observed).ln();
        (predicted > 0.0 && observed > 0.0 && y.is_finite()).then_some(Self::At(y))
    }

    /// What a sighting says, by the curve of factor 1. `None` for a day that is not above 0, and where the model never
    /// shows so much hair.
    pub fn of_sighting(
        sighting: Sighting,
        expected: &Regrowth,
        rules: &ClockRules,
    ) -> Option<Self> {
        match sighting {
            Sighting::FirstHairs { days } => {
                Self::of_days(expected.days_until_visible(rules.first_hairs.value)?, days)
            }
            Sighting::Share { seen, days } => {
                if !(days > 0.0 && days.is_finite()) {
                    return None;
                }
                let border = |share: f64| {
                    let predicted = expected.days_until_visible(share);
                    predicted.map_or(f64::INFINITY, |predicted| (predicted / days).ln())
                };
                // The share seen lies between two borders, and its predicted time with it.
                let (from, until) = match seen {
                    Seen::AlmostNone => (f64::NEG_INFINITY, border(rules.quarter_from.value)),
                    Seen::Quarter => (
                        border(rules.quarter_from.value),
                        border(rules.half_from.value),
                    ),
                    Seen::Half => (
                        border(rules.half_from.value),
                        border(rules.three_quarters_from.value),
                    ),
                    Seen::ThreeQuarters => (
                        border(rules.three_quarters_from.value),
                        border(rules.all_back_from.value),
                    ),
                    Seen::AllBack => (border(rules.all_back_from.value), f64::INFINITY),
                };
                (from < until).then_some(Self::Between(from, until))
            }
        }
    }
}

/// What is believed about one person's clock.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Clock {
    /// Mean and deviation of z = ln factor.
    pub mean: f64,
    pub sd: f64,
    /// No factor is given outside these.
    pub slowest: f64,
    pub fastest: f64,
}

impl Clock {
    /// What is believed about someone of whom nothing was seen yet.
    pub fn unseen(rules: &ClockRules) -> Self {
        Self {
            mean: 0.0,
            sd: rules.prior_sd.value,
            slowest: rules.slowest.value,
            fastest: rules.fastest.value,
        }
    }

    /// What is believed after these observations; their order does not matter.
    ///
    /// Exact times alone give the normal posterior in closed form: with n of them of mean ȳ, prior variance p and noise
    /// variance q, mean n p ȳ / (n p + q) and variance p q / (n p + q). Ranges are then weighed in by quadrature, and the
    /// mean and variance of what comes out are kept.
    pub fn observed(rules: &ClockRules, evidence: &[Evidence]) -> Self {
        let (p, q) = (rules.prior_sd.value.powi(2), rules.noise_sd.value.powi(2));
        let exact = evidence.iter().filter_map(|one| match one {
            Evidence::At(y) => Some(*y),
            Evidence::Between(..) => None,
        });
        let (count, sum) = exact.fold((0.0, 0.0), |(count, sum), y| (count + 1.0, sum + y));
        let spread = count * p + q;
        let from_times = Self {
            mean: p * sum / spread,
            sd: (p * q / spread).sqrt(),
            ..Self::unseen(rules)
        };
        from_times.within(rules.noise_sd.value, evidence)
    }

    /// The factor with `deviations` of the belief's deviation added.
    pub fn factor_at(&self, deviations: f64) -> f64 {
        (self.mean + deviations * self.sd)
            .exp()
            .clamp(self.slowest, self.fastest)
    }

    /// The middle of the belief: half of it lies to either side.
    pub fn factor(&self) -> f64 {
        self.factor_at(0.0)
    }

    /// The factors between which `share` of the belief lies, the same share being left on either side.
    pub fn band(&self, share: f64) -> (f64, f64) {
        let deviations = normal::quantile(0.5 + share / 2.0);
        (self.factor_at(-deviations), self.factor_at(deviations))
    }

    /// The same belief, `factor` times as unsure.
    pub fn widened(self, factor: f64) -> Self {
        Self {
            sd: self.sd * factor,
            ..self
        }
    }

    /// Weighs in the ranges among `evidence`: each place of the belief by how often noise would lead into them.
    fn within(self, noise: f64, evidence: &[Evidence]) -> Self {
        let ranges: Vec<(f64, f64)> = evidence
            .iter()
            .filter_map(|one| match one {
                Evidence::At(_) => None,
                Evidence::Between(from, until) => Some((*from, *until)),
            })
            .collect();
        if ranges.is_empty() {
            return self;
        }
        let mut centre = self.mean;
        // A sighting against everything believed may pull the mean out of the places looked at: look again around it.
        for _ in 0..20 {
            let Some((mean, sd)) = self.moments(centre, noise, &ranges) else {
                // Contradicted beyond what a double can weigh: better to keep to what was believed.
                return self;
            };
            if (mean - centre).abs() <= 2.0 * self.sd {
                return Self { mean, sd, ..self };
            }
            centre = mean;
        }
        self
    }

    /// Mean and deviation of this belief times the chance of every range, summed over places around `centre`.
    fn moments(self, centre: f64, noise: f64, ranges: &[(f64, f64)]) -> Option<(f64, f64)> {
        // Equal steps to 8 deviations on either side: for a smooth belief as good as any rule.
        const STEPS: i32 = 64;
        let (mut weight, mut first, mut second) = (0.0, 0.0, 0.0);
        for step in -STEPS..=STEPS {
            let place = f64::from(step) * 8.0 / f64::from(STEPS);
            let z = centre + place * self.sd;
            let seen: f64 = ranges
                .iter()
                .map(|(from, until)| normal::mass((from - z) / noise, (until - z) / noise))
                .product();
            let here = normal::density((z - self.mean) / self.sd) * seen;
            weight += here;
            first += here * place;
            second += here * place * place;
        }
        let mean = first / weight;
        let sd = self.sd * (second / weight - mean * mean).max(0.0).sqrt();
        (weight > 0.0 && sd > 0.0).then_some((centre + mean * self.sd, sd))
    }
}
