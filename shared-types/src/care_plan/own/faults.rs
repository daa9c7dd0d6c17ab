//! What cannot be taken of a studio's own advice or of a label.

use super::{AddedCaution, ChangedCaution, LONGEST_HOURS, Label, OwnAdvice};
use crate::{
    catalogue::Catalogue,
    visit::{CautionKind, Treatment},
};

/// Each names where it is, what was given and what is allowed.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum OwnFault {
    #[error("`{treatment}` is not offered; allowed is one of {allowed}")]
    NotOffered {
        treatment: Treatment,
        allowed: String,
    },
    #[error(
        "`{treatment}` has no caution `{kind}` that could be changed; allowed is one of {allowed}"
    )]
    NoSuchCaution {
        treatment: Treatment,
        kind: CautionKind,
        allowed: String,
    },
    #[error("the caution `{kind}` of `{treatment}` is changed twice; once is allowed")]
    Twice {
        treatment: Treatment,
        kind: CautionKind,
    },
    #[error("{given} hours; allowed is 1 to {LONGEST_HOURS}")]
    Hours { given: u32 },
    #[error(
        "{given} hours are outside the range of {least} to {most}; allowed are those, or others with a `reason`"
    )]
    Reason { given: u32, least: u32, most: u32 },
    #[error("no treatment is named; allowed is at least one of {allowed}")]
    NoTreatment { allowed: String },
    #[error("there are no words for it; say what to leave")]
    NoWords,
    #[error("`{given}` is no id; allowed are small letters, digits, `_` and `-`, each id once")]
    Id { given: String },
    #[error("the product has no name; give it as on the pack")]
    NoProduct,
}

/// A fault with the field that is to blame, such as `changed[0].hours`.
type Found = (String, OwnFault);

impl OwnAdvice {
    /// Everything that cannot be taken; nothing when all can.
    pub fn faults(&self, catalogue: &Catalogue) -> Vec<Found> {
        let mut found = Vec::new();
        for (index, one) in self.changed.iter().enumerate() {
            let mut blame = |field: &str, fault| {
                found.push((format!("changed[{index}].{field}"), fault));
            };
            let (treatment, kind) = (one.treatment, one.kind);
            let mut before = self.changed.iter().take(index);
            if before.any(|other| (other.treatment, other.kind) == (treatment, kind)) {
                blame("kind", OwnFault::Twice { treatment, kind });
            }
            if let Some((field, fault)) = one.fault(catalogue) {
                blame(field, fault);
            }
        }
        for (index, one) in self.added.iter().enumerate() {
            let taken = self
                .added
                .iter()
                .take(index)
                .any(|other| other.id == one.id);
            let given = one.id.clone();
            let taken = taken.then_some(("id", OwnFault::Id { given }));
            if let Some((field, fault)) = taken.or_else(|| one.fault(catalogue)) {
                found.push((format!("added[{index}].{field}"), fault));
            }
        }
        found
    }
}

impl ChangedCaution {
    /// The first thing wrong with it, with its field.
    pub fn fault(&self, catalogue: &Catalogue) -> Option<(&'static str, OwnFault)> {
        let Some(entry) = catalogue.treatments.get(&self.treatment) else {
            return Some(("treatment", not_offered(catalogue, self.treatment)));
        };
        let rule = entry.cautions.iter().find(|rule| rule.kind == self.kind);
        let Some(rule) = rule else {
            let kinds: Vec<_> = entry.cautions.iter().map(|rule| rule.kind.term()).collect();
            let fault = OwnFault::NoSuchCaution {
                treatment: self.treatment,
                kind: self.kind,
                allowed: kinds.join(", "),
            };
            return Some(("kind", fault));
        };
        let given = self.hours?;
        let (least, most) = (rule.least_hours, rule.most_hours);
        if !(1..=LONGEST_HOURS).contains(&given) {
            Some(("hours", OwnFault::Hours { given }))
        } else if !(least..=most).contains(&given) && self.reason.trim().is_empty() {
            Some(("reason", OwnFault::Reason { given, least, most }))
        } else {
            None
        }
    }
}

impl AddedCaution {
    /// The first thing wrong with it, with its field.
    pub fn fault(&self, catalogue: &Catalogue) -> Option<(&'static str, OwnFault)> {
        let fits = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || "_-".contains(c);
        let given = self.hours;
        if self.id.is_empty() || !self.id.chars().all(fits) {
            let given = self.id.clone();
            Some(("id", OwnFault::Id { given }))
        } else if self.treatments.is_empty() {
            let allowed = catalogue.offered();
            Some(("treatments", OwnFault::NoTreatment { allowed }))
        } else if self.what.trim().is_empty() {
            Some(("what", OwnFault::NoWords))
        } else if !(1..=LONGEST_HOURS).contains(&given) {
            Some(("hours", OwnFault::Hours { given }))
        } else {
            unknown(catalogue, &self.treatments)
        }
    }
}

impl Label {
    /// The first thing wrong with it, with its field.
    pub fn fault(&self, catalogue: &Catalogue) -> Option<(&'static str, OwnFault)> {
        let given = self.hours;
        if self.product.trim().is_empty() {
            Some(("product", OwnFault::NoProduct))
        } else if !(1..=LONGEST_HOURS).contains(&given) {
            Some(("hours", OwnFault::Hours { given }))
        } else {
            unknown(catalogue, &self.treatments)
        }
    }
}

fn unknown(catalogue: &Catalogue, given: &[Treatment]) -> Option<(&'static str, OwnFault)> {
    let mut given = given.iter();
    let unknown = given.find(|one| !catalogue.treatments.contains_key(one))?;
    Some(("treatments", not_offered(catalogue, *unknown)))
}

fn not_offered(catalogue: &Catalogue, treatment: Treatment) -> OwnFault {
    OwnFault::NotOffered {
        treatment,
        allowed: catalogue.offered(),
    }
}
