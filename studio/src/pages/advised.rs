//! Sentences of advice when something is not right, with what they name.

use shared_types::{urgency::advice_key, words::Words};

use super::client::Source;
use crate::{record::studio::Particulars, state::Studio};

/// What the sentences of questions and advice name: the rules' figures, the studio, its emergency number.
pub struct Values(Vec<(&'static str, String)>);

impl Values {
    /// In a language.
    pub fn of(studio: &Studio, particulars: &Particulars, language: &str) -> Self {
        let urgency = &studio.content.catalogue.urgency;
        let limit = |name| urgency.whole(name).unwrap_or_default().to_string();
        let limits = [
            "rinse_minutes",
            "cool_minutes",
            "ordinary_hours",
            "report_days",
            "ask_again_first",
        ];
        let mut values: Vec<_> = limits.map(|name| (name, limit(name))).to_vec();
        values.push(("studio", particulars.name.clone()));
        let emergency = studio.emergency(&particulars.region, language);
        values.push(("number", emergency.text));
        Self(values)
    }

    /// As [`Words::fill`] takes them.
    pub fn pairs(&self) -> Vec<(&str, &str)> {
        let values = self.0.iter();
        values
            .map(|(name, value)| (*name, value.as_str()))
            .collect()
    }

    /// The sentences of some advice, by its ids.
    pub fn advice(&self, ids: &[String], words: &Words) -> Vec<String> {
        let values = self.pairs();
        let sentence = |id: &String| words.fill(&advice_key(id), &values);
        ids.iter().map(sentence).collect()
    }
}

/// The sentences of some advice, in the language of a client's page.
pub fn of_page(studio: &Studio, source: &Source, advice: &[String]) -> Vec<String> {
    let (language, words) = studio.words(&source.language);
    Values::of(studio, &source.studio, language).advice(advice, words)
}
