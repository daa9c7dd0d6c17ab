//! What one studio asks for instead of the catalogue's cautions and beside them, and what a product's label says. The
//! label comes before the studio, and the studio before the catalogue.

mod faults;
mod label;
mod whose;

use serde::{Deserialize, Serialize};

use crate::{
    catalogue::caution::CautionRule,
    visit::{CautionKind, Finding, Findings, Treatment},
};
pub use faults::OwnFault;
pub(in crate::care_plan) use label::longest as longest_label;
pub use label::{Label, of_products};
pub use whose::Whose;

/// The longest that can be asked for, in hours: a limit of the form, not of skin. More than a year is a slip.
pub const LONGEST_HOURS: u32 = 366 * 24;

/// Id of the source that stands for the studio itself, and of that for a product's label.
pub const STUDIO_SOURCE: &str = "studio_own";
pub const LABEL_SOURCE: &str = "product_label";

/// A studio's own cautions. A new studio has none.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct OwnAdvice {
    /// Instead of the catalogue's: at most one for a treatment and kind.
    pub changed: Vec<ChangedCaution>,
    /// Beside the catalogue's.
    pub added: Vec<AddedCaution>,
}

/// One of the catalogue's cautions as this studio puts it. What is left out stays as the catalogue has it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ChangedCaution {
    pub treatment: Treatment,
    pub kind: CautionKind,
    /// Elapsed hours from the end of the visit.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hours: Option<u32>,
    /// What to leave, and why; as they are, in the studio's language.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub what: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub why: Option<String>,
    /// Why the hours lie outside the catalogue's range; for the artist and the record alone.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub reason: String,
}

/// A caution that the catalogue does not have.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AddedCaution {
    /// Small letters, digits, `_` and `-`.
    pub id: String,
    /// After which treatments: at least one.
    pub treatments: Vec<Treatment>,
    pub what: String,
    #[serde(default)]
    pub why: String,
    /// Elapsed hours from the end of the visit.
    pub hours: u32,
}

/// What counts beside the catalogue at one visit. The default is nothing.
#[derive(Clone, Copy, Debug, Default)]
pub struct Beside<'a> {
    pub own: Option<&'a OwnAdvice>,
    /// Of the products used at this visit; see [`of_products`].
    pub labels: &'a [Label],
}

impl OwnAdvice {
    pub fn of(&self, treatment: Treatment, kind: CautionKind) -> Option<&ChangedCaution> {
        let mut changed = self.changed.iter();
        changed.find(|one| one.treatment == treatment && one.kind == kind)
    }
}

impl ChangedCaution {
    /// Whether it says nothing that the catalogue does not say.
    pub fn is_empty(&self) -> bool {
        self.hours.is_none() && self.what.is_none() && self.why.is_none()
    }

    /// The hours by this studio, and the findings that made them longer than its own: what was found may still ask for
    /// longer, and then that is the catalogue's.
    pub(super) fn hours_for(
        &self,
        rule: &CautionRule,
        findings: Findings,
    ) -> (u32, Vec<Finding>, Whose) {
        let own = CautionRule {
            hours: self.hours.unwrap_or(rule.hours),
            ..rule.clone()
        };
        let (hours, longer_for) = own.hours_for(findings);
        let whose = if self.hours.is_some() && longer_for.is_empty() {
            Whose::Studio {
                reason: self.reason.clone(),
            }
        } else {
            Whose::Catalogue
        };
        (hours, longer_for, whose)
    }
}

#[cfg(test)]
mod tests;
