//! What is known of the person beyond this visit, as far as a forecast depends on it.

use serde::{Deserialize, Serialize};

use crate::{catalogue::flag::Flag, regrowth::clock::Clock};

/// Somebody's own pace, and what makes it unsure. Nothing is known of a new client.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Person {
    /// Learned from what was seen at earlier visits; `None` when nothing was.
    pub clock: Option<Clock>,
    /// Visits from which something was learned.
    pub visits_seen: u16,
    /// What the consultation found that a forecast cannot follow.
    pub flags: Vec<Flag>,
}
