//! One measured, quoted or assumed number, with where it comes from and how far it may be off.

use std::{fmt, str::FromStr};

use serde::{Deserialize, Serialize};

use crate::visit::{UnknownTerm, terms};

/// A parameter of the regrowth model or of a rule.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Figure {
    pub value: f64,
    pub unit: Unit,
    /// The plausible range, ends included: `low <= value <= high`.
    pub low: f64,
    pub high: f64,
    /// Id of a [`super::source::Source`].
    pub source: String,
    pub verified: Verified,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub confidence: Option<Confidence>,
}

terms! {
    /// Units as UCUM writes them.
    Unit {
        Millimetre = "mm",
        MillimetrePerDay = "mm/d",
        Minute = "min",
        Hour = "h",
        Day = "d",
        PerDay = "/d",
        /// A share, or a bare count.
        One = "1",
    }
}

terms! {
    /// Where the number itself was seen.
    Verified {
        /// In the primary publication, its abstract, an official page or a textbook.
        Primary = "V",
        /// On a specialist page that names the primary publication and repeats its figures.
        Specialist = "S+",
        /// On a secondary page only.
        Secondary = "S",
        /// From memory; not looked up.
        Memory = "M",
        /// Derived by arithmetic from other figures.
        Derived = "D",
        /// Assumed; no published support was found.
        Assumed = "A",
    }
}

terms! {
    /// How sure a figure is, where that needs saying.
    Confidence {
        High = "high",
        Medium = "medium",
        Low = "low",
    }
}
