//! One treatment of the trade as the catalogue describes it.

use std::{fmt, str::FromStr};

use serde::{Deserialize, Serialize};

use super::{
    caution::{CautionRule, Grade},
    figure::{Figure, Unit},
};
use crate::visit::{Area, Finding, UnknownTerm, terms};

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TreatmentEntry {
    pub area: Area,
    /// Each kind at most once.
    pub cautions: Vec<CautionRule>,
    /// When the trade has clients come back.
    pub interval: TradeInterval,
    /// Present where hair was removed: the next visit then follows the regrowth model, never before the earliest day
    /// of [`TreatmentEntry::interval`].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub removal: Option<Removal>,
    /// Present where hair was dyed: the next visit is then at its best as long as the tint looks even, within
    /// [`TreatmentEntry::interval`].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tint: Option<Tint>,
    pub before_next: Vec<BeforeRule>,
}

/// Days from the visit to the next: `earliest <= best <= latest`.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TradeInterval {
    pub earliest_days: u16,
    pub best_days: u16,
    pub latest_days: u16,
    pub grade: Grade,
    pub sources: Vec<String>,
}

/// How hair is taken out.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Removal {
    /// The visible length that can be held, in mm.
    pub graspable_mm: Figure,
    /// The share of hairs that break under it; stands in for the area's.
    pub broken_fraction: Figure,
    /// Who backs a next visit by regrowth.
    pub grade: Grade,
    pub sources: Vec<String>,
}

/// A dye that goes as its hairs are shed and as it is washed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Tint {
    /// Who says how the colour goes; the days that come of it are the trade's grade.
    pub sources: Vec<String>,
}

impl Removal {
    /// Every figure with its name in the file and the unit it has to have.
    pub fn all(&self) -> [(&'static str, &Figure, Unit); 2] {
        [
            ("graspable_mm", &self.graspable_mm, Unit::Millimetre),
            ("broken_fraction", &self.broken_fraction, Unit::One),
        ]
    }
}

/// Something to do, or to leave, before the next treatment. Its sentence is the word `before.<id>`, in which `{n}`
/// stands for the number of [`Lead`] and `{area}` for what is treated.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BeforeRule {
    pub id: String,
    #[serde(default)]
    pub act: Act,
    pub lead: Lead,
    /// Findings that make it matter more; named among the reasons when they were found.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub findings: Vec<Finding>,
    pub grade: Grade,
    pub sources: Vec<String>,
}

terms! {
    /// What a rule asks for. Rules that do not say it, and those of advice that was given before rules could say it,
    /// are of the first kind.
    #[derive(Default)]
    Act {
        /// To be left from then on, until the treatment.
        #[default]
        Leave = "leave",
        /// To be done by then at the latest.
        Do = "do",
        /// To be told to the artist, whenever it was.
        Tell = "tell",
    }
}

/// How long before the next treatment, in the unit in which the source speaks.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Lead {
    Hours(u32),
    Days(u32),
    Months(u32),
    /// The whole time between two visits.
    Throughout,
    /// When the client comes.
    OnTheDay,
}

impl Lead {
    /// The name of the unit and the number, as JSON and sentences give them; none where it is no span of time.
    pub const fn named(self) -> Option<(&'static str, u32)> {
        match self {
            Lead::Hours(n) => Some(("hours", n)),
            Lead::Days(n) => Some(("days", n)),
            Lead::Months(n) => Some(("months", n)),
            Lead::Throughout | Lead::OnTheDay => None,
        }
    }
}
