//! Where a rule or a figure comes from, and what a region's rules are.

use serde::{Deserialize, Serialize};

use crate::outcome::{PassOn, Seriousness};

/// A publication, an official page, or the plain statement that something is common practice.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Source {
    /// Author, year, title or page, as one would cite it.
    pub title: String,
    /// What it says, as far as it is used here.
    pub says: String,
    /// The page on which that was read; none when it is from memory or ours.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub url: Option<String>,
}

/// A region that a studio may be in. Its name and its emergency number as written are words: `region.<id>`,
/// `emergency.<id>`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Region {
    /// The number for the emergency services as it is dialled: digits only.
    pub emergency_dial: String,
    pub source: String,
    /// What makes an effect of a cosmetic serious there; none where no law of that place is known here.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub serious: Vec<Seriousness>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub serious_sources: Vec<String>,
    /// In how many days whoever put the product on the market has to report it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pass_on: Option<PassOn>,
}
