//! What is known about the hair of one area.

use std::{collections::BTreeMap, fmt, str::FromStr};

use serde::{Deserialize, Serialize};

use super::figure::{Figure, Unit};
use crate::visit::{UnknownTerm, terms};

/// The parameters of the regrowth model with their sources. Names are those of the command line.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HairFigures {
    /// Growth of the shaft.
    pub speed_mm_per_day: Figure,
    /// From the bulb of a growing hair to the surface of the skin.
    pub depth_mm: Figure,
    /// Mean stay in each phase of the cycle.
    pub anagen_days: Figure,
    pub catagen_days: Figure,
    pub telogen_days: Figure,
    pub kenogen_days: Figure,
    /// When 90 % of pulled hairs show again.
    pub regrown_90_days: Figure,
    /// Shape k of the Erlang latency: a whole number.
    pub latency_shape: Figure,
    /// Scale theta of the Erlang latency. Without it, theta is calibrated so that `regrown_90_days` comes true.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub latency_scale_days: Option<Figure>,
    /// Share of removed hairs that break instead of coming out with the root, and how deep they break.
    pub broken_fraction: Figure,
    pub break_depth_mm: Figure,
    /// Share of pulled follicles that never return.
    pub lost_fraction: Figure,
    /// Share of a tint's colour that one wash leaves, and washes in a day.
    pub wash_keep: Figure,
    pub washes_per_day: Figure,
    /// What was measured by age, where it was.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub by_age: BTreeMap<AgeBand, AgeFigures>,
}

terms! {
    /// Ages as the one study that tells them apart names them.
    AgeBand {
        Prepubertal = "prepubertal",
        YoungAdult = "young_adult",
        Mature = "mature",
        Older = "older",
    }
}

/// The figures that stand in for those of all ages.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AgeFigures {
    pub speed_mm_per_day: Figure,
    /// The latency is calibrated so that this comes true.
    pub regrown_90_days: Figure,
}

impl AgeFigures {
    /// Every figure with its name in the file and the unit it has to have.
    pub fn all(&self) -> [(&'static str, &Figure, Unit); 2] {
        [
            (
                "speed_mm_per_day",
                &self.speed_mm_per_day,
                Unit::MillimetrePerDay,
            ),
            ("regrown_90_days", &self.regrown_90_days, Unit::Day),
        ]
    }
}

impl HairFigures {
    /// Every figure of all ages with its name in the file and the unit it has to have.
    pub fn all(&self) -> Vec<(&'static str, &Figure, Unit)> {
        let mut all = vec![
            (
                "speed_mm_per_day",
                &self.speed_mm_per_day,
                Unit::MillimetrePerDay,
            ),
            ("depth_mm", &self.depth_mm, Unit::Millimetre),
            ("anagen_days", &self.anagen_days, Unit::Day),
            ("catagen_days", &self.catagen_days, Unit::Day),
            ("telogen_days", &self.telogen_days, Unit::Day),
            ("kenogen_days", &self.kenogen_days, Unit::Day),
            ("regrown_90_days", &self.regrown_90_days, Unit::Day),
            ("latency_shape", &self.latency_shape, Unit::One),
            ("broken_fraction", &self.broken_fraction, Unit::One),
            ("break_depth_mm", &self.break_depth_mm, Unit::Millimetre),
            ("lost_fraction", &self.lost_fraction, Unit::One),
            ("wash_keep", &self.wash_keep, Unit::One),
            ("washes_per_day", &self.washes_per_day, Unit::PerDay),
        ];
        all.extend(
            self.latency_scale_days
                .iter()
                .map(|figure| ("latency_scale_days", figure, Unit::Day)),
        );
        all
    }
}
