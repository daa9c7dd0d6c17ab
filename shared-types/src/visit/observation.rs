//! What is seen at a visit of the hair that was removed at an earlier one.

use serde::{Deserialize, Serialize};

use super::Area;
use crate::regrowth::clock::{Seen, Sighting};

/// Something seen of the hair in one area: at most one of each kind for an area and visit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Observation {
    pub area: Area,
    pub what: Observed,
}

/// Both are about the latest removal in the area before the visit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Observed {
    /// How much the artist sees again, at the visit.
    Share(Seen),
    /// The client says that the first hairs were seen so many days after the removal: 1 or more.
    FirstHairs(u16),
}

impl Observed {
    /// As the clock takes it, `days` being those from the removal to the visit.
    pub fn after(self, days: f64) -> Sighting {
        match self {
            Observed::Share(seen) => Sighting::Share { seen, days },
            Observed::FirstHairs(day) => Sighting::FirstHairs { days: day.into() },
        }
    }
}
