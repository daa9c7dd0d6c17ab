//! How the studio deals with reports: when it replies, and with which beginnings. Settings of its own, kept as versions.

use serde::{Deserialize, Serialize};

use crate::urgency::Level;

/// Most sentences to begin an answer with, and the longest of them in characters.
pub const BEGINNINGS_MAX: usize = 12;
pub const BEGINNING_LONGEST: usize = 400;
/// The longest time to reply that is taken, in hours: two weeks. Only to keep typing errors out.
pub const REPLY_LONGEST: u32 = 336;

/// What the studio set; where it set nothing the content's figures and words hold.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Desk {
    /// Whole hours within which a report of this level is usually answered.
    pub emergency: Option<u32>,
    pub same_day: Option<u32>,
    pub studio: Option<u32>,
    pub expected: Option<u32>,
    /// Sentences to begin an answer with; `None` as long as those of the language serve.
    pub beginnings: Option<Vec<String>>,
}

impl Desk {
    /// The studio's own time for a level.
    pub fn hours(&self, level: Level) -> Option<u32> {
        match level {
            Level::Emergency => self.emergency,
            Level::SameDay => self.same_day,
            Level::Studio => self.studio,
            Level::Expected => self.expected,
        }
    }

    pub fn set_hours(&mut self, level: Level, hours: Option<u32>) {
        let own = match level {
            Level::Emergency => &mut self.emergency,
            Level::SameDay => &mut self.same_day,
            Level::Studio => &mut self.studio,
            Level::Expected => &mut self.expected,
        };
        *own = hours;
    }
}

/// The name of the content's limit for a level, in hours.
pub fn reply_limit(level: Level) -> String {
    format!("reply_hours_{level}")
}
