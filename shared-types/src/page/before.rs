//! Before the treatment: what should stop or delay it, as the artist reads it, and what was decided.

use serde::{Deserialize, Serialize};
use uuid::Uuid;

use super::client::Moment;
use crate::catalogue::concern::Weight;

/// One concern in words, as it was shown, and as it is kept.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct ConcernLine {
    pub weight: Weight,
    /// The weight in words.
    pub title: String,
    pub sentence: String,
    /// From when on it no longer stands, in a sentence; empty where that cannot be said.
    pub clears: String,
    /// Who says so, with the sources.
    pub basis: String,
}

/// That part of the form of a visit. Fields: `concerns_seen` (what has been shown already), `retinoid_stopped_days,
/// decision, decision_words`, and `look_up`, as everywhere in the form.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct BeforePart {
    /// The firmest first.
    pub lines: Vec<ConcernLine>,
    /// What the form sends back to show that these were on the screen.
    pub seen: String,
    /// Value and words of what may be decided.
    pub decisions: Vec<(String, String)>,
    /// Whether a retinoid was found, so that it is asked when it was stopped.
    pub ask_stopped: bool,
    /// What was put off for the chosen client, the latest first.
    pub put_off: Vec<PutOffLine>,
    /// What is not to be used again for the chosen client, in words.
    pub not_again: Vec<String>,
}

/// A treatment that was put off.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PutOffLine {
    pub id: Uuid,
    /// "Brow wax, Thursday 14:30"
    pub text: String,
}

/// What was kept of it.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct BeforeView {
    pub lines: Vec<ConcernLine>,
    /// In words; that none was noted, where that is so.
    pub decision: String,
    pub words: String,
    /// When a retinoid was stopped, in a sentence; empty where nobody said.
    pub stopped: String,
    /// "Kept Thursday 14:30 by Ilse."
    pub kept: String,
}

/// A treatment that was put off, with all that is kept of it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PutOffView {
    pub client: Uuid,
    pub first_name: String,
    /// What would have been done.
    pub treatments: Vec<String>,
    pub at: Moment,
    pub findings: Vec<String>,
    pub flags: Vec<String>,
    pub note: String,
    pub before: BeforeView,
    /// The others of the same client, the latest first.
    pub others: Vec<PutOffLine>,
}
