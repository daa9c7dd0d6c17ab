//! Reading a form's fields, and saying beside each what to mend.

use shared_types::{page::form::Filled, words::Words};

/// A form being read. What cannot be taken is noted; reading goes on, so that all of it is said at once.
pub struct Check<'a> {
    form: &'a Filled,
    words: &'a Words,
    faults: Vec<(String, String)>,
}

impl<'a> Check<'a> {
    pub fn new(form: &'a Filled, words: &'a Words) -> Self {
        Self {
            form,
            words,
            faults: Vec::new(),
        }
    }

    /// A text without surrounding blanks, of at most `longest` characters.
    pub fn text(&mut self, field: &str, longest: usize) -> String {
        let text = self.form.value(field).trim();
        if text.chars().count() > longest {
            self.fault(field, "fault.too_long", &[("max", &longest.to_string())]);
        }
        text.to_owned()
    }

    /// A text that may not be left empty.
    pub fn needed(&mut self, field: &str, longest: usize) -> String {
        let text = self.text(field, longest);
        if text.is_empty() {
            self.fault(field, "fault.required", &[]);
        }
        text
    }

    /// Looks like an e-mail address: something, an @, and a host; whether it arrives only a letter can tell.
    pub fn email(&mut self, field: &str, email: &str) {
        let whole = email.split_once('@').is_some_and(|(name, host)| {
            !name.is_empty() && host.contains('.') && !host.starts_with('.') && !host.ends_with('.')
        });
        if !whole || email.contains(char::is_whitespace) {
            self.fault(field, "fault.email", &[]);
        }
    }

    /// Notes the sentence of `key` beside a field; the first one counts.
    pub fn fault(&mut self, field: &str, key: &str, values: &[(&str, &str)]) {
        let sentence = self.words.fill(key, values);
        self.faults.push((field.to_owned(), sentence));
    }

    /// What was noted, by field, in the order noted.
    pub fn faults(self) -> Vec<(String, String)> {
        self.faults
    }
}
