//! A form as it comes back: what was typed, and which sentence stands beside which field.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

/// The values of a form by field name, and the sentence for each field that needs mending. Empty for a fresh form.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Filled {
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub values: BTreeMap<String, Vec<String>>,
    /// Field name → sentence. The empty name stands for the form as a whole.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub faults: BTreeMap<String, String>,
}

impl Filled {
    /// The first value of `field`, or nothing.
    pub fn value(&self, field: &str) -> &str {
        self.values
            .get(field)
            .and_then(|all| all.first())
            .map_or("", String::as_str)
    }

    /// Whether `field` holds `value` (a ticked box, a chosen answer).
    pub fn has(&self, field: &str, value: &str) -> bool {
        self.values
            .get(field)
            .is_some_and(|all| all.iter().any(|one| one == value))
    }

    /// The sentence for `field`, if it needs mending.
    pub fn fault(&self, field: &str) -> Option<&str> {
        self.faults.get(field).map(String::as_str)
    }

    /// Keeps one more value of `field`.
    pub fn put(&mut self, field: &str, value: impl Into<String>) {
        self.values
            .entry(field.to_owned())
            .or_default()
            .push(value.into());
    }
}
