//! When the reactions after one batch of a product are worth a look.

use serde::{Deserialize, Serialize};

use super::figure::{Figure, Unit};

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BatchRules {
    /// Worth a look when chance alone would bring so many reactions less often than this (one-sided exact test).
    pub look_below: Figure,
    /// To be set aside below this.
    pub set_aside_below: Figure,
    /// Worth a look from so many reports of the same pattern.
    pub same_pattern: Figure,
    /// To be set aside from so many reactions, when both of the next hold as well:
    pub many_reactions: Figure,
    /// so many times as often as after all others,
    pub many_times: Figure,
    /// and a chi-square with Yates' correction of so much.
    pub many_chi_square: Figure,
    /// The share of the intervals (0 to 1).
    pub interval: Figure,
}

impl BatchRules {
    /// Every figure with its name in the file and the unit it has to have.
    pub fn all(&self) -> [(&'static str, &Figure, Unit); 7] {
        [
            ("look_below", &self.look_below, Unit::One),
            ("set_aside_below", &self.set_aside_below, Unit::One),
            ("same_pattern", &self.same_pattern, Unit::One),
            ("many_reactions", &self.many_reactions, Unit::One),
            ("many_times", &self.many_times, Unit::One),
            ("many_chi_square", &self.many_chi_square, Unit::One),
            ("interval", &self.interval, Unit::One),
        ]
    }

    /// The first figure with which nothing is meant: its name and what is allowed.
    pub fn fault(&self) -> Option<(&'static str, &'static str)> {
        let share = |figure: &Figure| figure.value > 0.0 && figure.value < 1.0;
        let (look, aside) = (&self.look_below, &self.set_aside_below);
        if !share(look) {
            Some(("look_below", "more than 0, less than 1"))
        } else if !(aside.value > 0.0 && aside.value <= look.value) {
            Some(("set_aside_below", "more than 0, at most `look_below`"))
        } else if !share(&self.interval) {
            Some(("interval", "more than 0, less than 1"))
        } else if self.same_pattern.value < 1.0 {
            Some(("same_pattern", "1 or more"))
        } else if self.many_reactions.value < 1.0 {
            Some(("many_reactions", "1 or more"))
        } else {
            None
        }
    }
}
