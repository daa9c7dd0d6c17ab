//! When to look at a patch test.

use serde::{Deserialize, Serialize};

use super::{
    Catalogue,
    concern::Condition,
    figure::{Figure, Unit},
};
use crate::visit::Treatment;

#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PatchTestRules {
    /// So many hours after it was put on, rising.
    pub looks: Vec<Figure>,
    /// After so many days nothing new is to be expected of it.
    pub last_days: Option<Figure>,
}

impl PatchTestRules {
    /// Whole hours after which to look.
    pub fn look_hours(&self) -> Vec<u32> {
        self.looks.iter().map(|look| look.value as u32).collect()
    }

    /// Whole days within which a reaction still shows itself.
    pub fn days_to_watch(&self) -> Option<u32> {
        self.last_days.as_ref().map(|figure| figure.value as u32)
    }

    /// Every figure with its unit.
    pub fn all(&self) -> impl Iterator<Item = (&Figure, Unit)> {
        let looks = self.looks.iter().map(|look| (look, Unit::Hour));
        looks.chain(self.last_days.iter().map(|figure| (figure, Unit::Day)))
    }
}

impl Catalogue {
    /// Days after which a new patch test is thought of, where the studio has no limit of its own.
    pub fn patch_test_days(&self) -> Option<u32> {
        self.concerns.iter().find_map(|rule| match rule.when {
            Condition::PatchTestOlderThanDays(days) => Some(days),
            _ => None,
        })
    }

    /// The treatments before which a patch test is missed when there is none.
    pub fn tested_before(&self) -> Vec<Treatment> {
        let rules = self.concerns.iter();
        let missing = rules.filter(|rule| rule.when == Condition::PatchTestMissing);
        let mut treatments: Vec<Treatment> = missing
            .flat_map(|rule| rule.treatments.iter().copied())
            .filter(|one| self.treatments.contains_key(one))
            .collect();
        treatments.sort_unstable();
        treatments.dedup();
        treatments
    }
}
