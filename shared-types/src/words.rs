//! What is said, by key, in one language. The texts themselves live in `content`; a page carries only the keys that
//! it shows.

use serde::{Deserialize, Serialize};

/// Sentences by dotted key, sorted by key. Placeholders are written `{name}`.
///
/// A sorted list and not a map: the phone downloads the code of every kind of map it has to read.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Words(Vec<(String, String)>);

impl Words {
    pub const fn none() -> Self {
        Self(Vec::new())
    }

    /// Of pairs that are sorted by key already.
    pub const fn sorted(pairs: Vec<(String, String)>) -> Self {
        Self(pairs)
    }

    /// The sentence of `key`, if there is one.
    pub fn get(&self, key: &str) -> Option<&str> {
        let at = self
            .0
            .binary_search_by(|(one, _)| one.as_str().cmp(key))
            .ok()?;
        self.0.get(at).map(|(_, sentence)| sentence.as_str())
    }

    /// Keeps a sentence. False, and nothing is changed, when the key has one already.
    pub fn insert(&mut self, key: String, sentence: String) -> bool {
        let Err(at) = self.0.binary_search_by(|(one, _)| one.cmp(&key)) else {
            return false;
        };
        self.0.insert(at, (key, sentence));
        true
    }

    /// Every key, in order.
    pub fn keys(&self) -> impl Iterator<Item = &str> {
        self.0.iter().map(|(key, _)| key.as_str())
    }

    /// The sentence of `key`. A missing key shows itself, so that a gap is seen in review and caught by the content
    /// check instead of leaving a blank.
    pub fn say<'a>(&'a self, key: &'a str) -> &'a str {
        self.get(key).unwrap_or(key)
    }

    /// The sentence of `key` with each `{name}` replaced by its value.
    pub fn fill(&self, key: &str, values: &[(&str, &str)]) -> String {
        let mut sentence = self.say(key).to_owned();
        for (name, value) in values {
            sentence = sentence.replace(&format!("{{{name}}}"), value);
        }
        sentence
    }

    /// The sentence of `key.one` or `key.other` for a count, with `{n}` filled in.
    ///
    /// `plural.zero_is_one` in the language file says whether nought takes the singular, as it does in French
    /// (Unicode CLDR plural rules: fr `one` is i = 0, 1; en and es `one` is n = 1).
    pub fn count(&self, key: &str, n: i64) -> String {
        let one = n == 1 || (n == 0 && self.say("plural.zero_is_one") == "yes");
        let form = format!("{key}.{}", if one { "one" } else { "other" });
        self.fill(&form, &[("n", &n.to_string())])
    }

    /// "a", "a and b", "a, b and c", with the language's own "and" (`list.last`).
    pub fn list(&self, items: &[String]) -> String {
        match items {
            [] => String::new(),
            [one] => one.clone(),
            [most @ .., last] => {
                self.fill("list.last", &[("most", &most.join(", ")), ("last", last)])
            }
        }
    }

    /// The words whose keys begin with one of `prefixes`: what one page needs.
    pub fn only(&self, prefixes: &[&str]) -> Words {
        Words(
            self.0
                .iter()
                .filter(|(key, _)| prefixes.iter().any(|prefix| key.starts_with(prefix)))
                .cloned()
                .collect(),
        )
    }
}
