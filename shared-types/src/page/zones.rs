//! The marked zones of a brow, as the client's page tells them.

use serde::{Deserialize, Serialize};

use crate::zones::{Mark, Zones};

/// Frozen with the visit's advice.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct ZonesCard {
    /// At least one.
    pub marks: Zones,
    /// In the order of [`Mark::ALL`].
    pub notes: Vec<ZoneNote>,
}

/// What is said of places that have the same mark, and the same dates.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct ZoneNote {
    pub mark: Mark,
    /// "Let it grow"
    pub title: String,
    /// "Left brow: arch and tail."
    pub places: String,
    /// A few sentences.
    pub text: String,
}
