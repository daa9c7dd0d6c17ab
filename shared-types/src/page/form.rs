//! A form as it was sent or typed: its values, and which sentence stands beside which field.

use serde::{Deserialize, Serialize};

/// The values of a form, and the sentence for each field that needs mending. Empty for a fresh form.
///
/// Kept as plain lists: a form has few fields, and the phone downloads every kind of map it has to read.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Filled {
    /// Field and value in the order sent; a field with several values stands several times.
    values: Vec<(String, String)>,
    /// Field and sentence. The empty name stands for the form as a whole.
    faults: Vec<(String, String)>,
}

impl Filled {
    /// The first value of `field`, or nothing.
    pub fn value(&self, field: &str) -> &str {
        self.all(field).next().unwrap_or_default()
    }

    /// Every value of `field`.
    pub fn all(&self, field: &str) -> impl Iterator<Item = &str> {
        self.values
            .iter()
            .filter(move |(name, _)| name == field)
            .map(|(_, value)| value.as_str())
    }

    /// Whether `field` holds `value` (a ticked box, a chosen answer).
    pub fn has(&self, field: &str, value: &str) -> bool {
        self.all(field).any(|one| one == value)
    }

    /// The fields that have a value, each as often as it has one.
    pub fn fields(&self) -> impl Iterator<Item = &str> {
        self.values.iter().map(|(name, _)| name.as_str())
    }

    /// Keeps one more value of `field`.
    pub fn put(&mut self, field: &str, value: impl Into<String>) {
        self.values.push((field.to_owned(), value.into()));
    }

    /// Forgets the values of `field`: a password, a token, a consent that is to be given anew.
    pub fn forget(&mut self, field: &str) {
        self.values.retain(|(name, _)| name != field);
    }

    /// The sentence for `field`, if it needs mending.
    pub fn fault(&self, field: &str) -> Option<&str> {
        self.faults
            .iter()
            .find(|(name, _)| name == field)
            .map(|(_, sentence)| sentence.as_str())
    }

    /// Asks for `field` to be mended. The first sentence stays: one at a time is enough to act on.
    pub fn blame(&mut self, field: &str, sentence: impl Into<String>) {
        if self.fault(field).is_none() {
            self.faults.push((field.to_owned(), sentence.into()));
        }
    }

    /// Asks for several fields to be mended.
    pub fn blame_all(&mut self, faults: impl IntoIterator<Item = (String, String)>) {
        for (field, sentence) in faults {
            self.blame(&field, sentence);
        }
    }

    /// Whether anything needs mending.
    pub fn is_faulty(&self) -> bool {
        !self.faults.is_empty()
    }
}
