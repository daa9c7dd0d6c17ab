//! When regrowth makes a next visit possible, good, and overdue.

use serde::{Deserialize, Serialize};

use super::figure::{Figure, Unit};

/// Shares (0 to 1) of the hairs that were there before the visit, and some numbers of days.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RebookRules {
    /// Earliest: this share can be seen again.
    pub visible_earliest: Figure,
    /// Best: this share can be seen again …
    pub visible_best: Figure,
    /// … and this share is long enough to be held.
    pub graspable_best: Figure,
    /// A comfortable time to come lasts until this share can be held,
    pub graspable_comfortable: Figure,
    /// but at least so many days from the best day.
    pub comfortable_days: Figure,
    /// Latest: this share can be held.
    pub graspable_latest: Figure,
    /// From this share on, a visit removes enough at once to be a full one.
    pub graspable_full: Figure,
    /// A tint looks even as long as this share of its colour is left.
    pub tint_even: Figure,
    /// Before a date to look one's best for: at least so many days,
    pub occasion_least: Figure,
    /// and at most so many.
    pub occasion_most: Figure,
}

impl RebookRules {
    /// Whole days between a visit and the date to look one's best for: at least, at most.
    pub fn occasion_days(&self) -> (u16, u16) {
        let whole = |figure: &Figure| figure.value as u16;
        (whole(&self.occasion_least), whole(&self.occasion_most))
    }

    /// Every figure with its name in the file and the unit it has to have.
    pub fn all(&self) -> [(&'static str, &Figure, Unit); 10] {
        [
            ("visible_earliest", &self.visible_earliest, Unit::One),
            ("visible_best", &self.visible_best, Unit::One),
            ("graspable_best", &self.graspable_best, Unit::One),
            (
                "graspable_comfortable",
                &self.graspable_comfortable,
                Unit::One,
            ),
            ("comfortable_days", &self.comfortable_days, Unit::Day),
            ("graspable_latest", &self.graspable_latest, Unit::One),
            ("graspable_full", &self.graspable_full, Unit::One),
            ("tint_even", &self.tint_even, Unit::One),
            ("occasion_least", &self.occasion_least, Unit::Day),
            ("occasion_most", &self.occasion_most, Unit::Day),
        ]
    }
}
