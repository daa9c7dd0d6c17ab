//! When a zone that is let grow should be seen to do so, and how long hope is fair.

use serde::{Deserialize, Serialize};

use super::figure::{Figure, Unit};

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ZoneRules {
    /// A gap begins to close when this share (0 to 1) of the hairs pulled there shows again.
    pub gap_closing: Figure,
    /// Little more will come after so many times the published time for 90 % of the hairs, at the person's pace,
    pub hope_times: Figure,
    /// but nobody is asked to hope for longer than so many days.
    pub longest_hope_days: Figure,
}

impl ZoneRules {
    /// Every figure with its name in the file and the unit it has to have.
    pub fn all(&self) -> [(&'static str, &Figure, Unit); 3] {
        [
            ("gap_closing", &self.gap_closing, Unit::One),
            ("hope_times", &self.hope_times, Unit::One),
            ("longest_hope_days", &self.longest_hope_days, Unit::Day),
        ]
    }

    /// The first figure with which nothing is meant: its name and what is allowed.
    pub fn fault(&self) -> Option<(&'static str, &'static str)> {
        let share = self.gap_closing.value;
        if !(share > 0.0 && share < 1.0) {
            Some(("gap_closing", "more than 0, less than 1"))
        } else if self.hope_times.value < 1.0 {
            Some(("hope_times", "1 or more"))
        } else if self.longest_hope_days.value <= 0.0 {
            Some(("longest_hope_days", "more than 0"))
        } else {
            None
        }
    }
}
