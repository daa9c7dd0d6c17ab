//! What the label of a product asks for. It comes before everything else, whether it asks for more or for less.

use serde::{Deserialize, Serialize};

use crate::visit::{CautionKind, Product, Treatment};

/// Hours that a product's label gives for one kind of caution.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Label {
    pub product: String,
    pub kind: CautionKind,
    /// Elapsed hours from the end of the visit.
    pub hours: u32,
    /// What else the label says, word for word; may be empty.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub words: String,
    /// The treatments that the product is for, so that the label of a tint does not shorten what a wax asks for; all of
    /// the visit when there are none.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub treatments: Vec<Treatment>,
}

impl Label {
    /// Whether it is about this product: the same name but for blanks around it and for capitals.
    pub fn is_of(&self, product: &str) -> bool {
        key(&self.product) == key(product)
    }

    pub fn is_about(&self, treatment: Treatment) -> bool {
        self.treatments.is_empty() || self.treatments.contains(&treatment)
    }
}

fn key(name: &str) -> String {
    name.trim().to_lowercase()
}

/// The labels that count at a visit at which these products were used.
pub fn of_products(labels: &[Label], products: &[Product]) -> Vec<Label> {
    let used = |label: &&Label| products.iter().any(|product| label.is_of(&product.name));
    labels.iter().filter(used).cloned().collect()
}

/// Of the labels of a visit the one that counts for a treatment: the longest, and of those as long the first.
pub(in crate::care_plan) fn longest(
    labels: &[Label],
    treatment: Treatment,
    kind: CautionKind,
) -> Option<&Label> {
    labels
        .iter()
        .rev()
        .filter(|label| label.kind == kind && label.is_about(treatment))
        .max_by_key(|label| label.hours)
}
