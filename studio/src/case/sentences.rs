//! The advice of a case in sentences. The record keeps which advice it was, and of which content; the sentences are those
//! of the content that is read now.

use shared_types::words::Words;

use super::Case;
use crate::pages::advised::Values;

/// Sentences in the studio's language.
pub struct Sentences {
    /// By the studio's rules when the report arrived.
    pub studio: Vec<String>,
    /// By the phone before anything was sent; empty where it told the same, or was not asked.
    pub phone: Vec<String>,
    /// After each word about how it went on, in their order.
    pub followed: Vec<Vec<String>>,
    /// The content whose words they are.
    pub content_version: String,
}

impl Sentences {
    /// `values` are what the sentences name.
    pub fn of(case: &Case, words: &Words, values: &Values, content_version: &str) -> Self {
        let say = |advice: &[String]| values.advice(advice, words);
        let judged = &case.held.judged;
        let phone = case.held.report.told.as_ref();
        let phone =
            phone.filter(|told| (told.level, &told.advice) != (judged.level, &judged.advice));
        let followed = case.held.followed.iter();
        Self {
            studio: say(&judged.advice),
            phone: phone.map_or_else(Vec::new, |told| say(&told.advice)),
            followed: followed.map(|one| say(&one.judged.advice)).collect(),
            content_version: content_version.to_owned(),
        }
    }

    /// Whether all of the advice was given by the content whose words these are.
    pub fn are_those_given(&self, case: &Case) -> bool {
        let held = &case.held;
        let phone = held.report.told.iter().map(|told| &told.content_version);
        let since = held.followed.iter().map(|one| &one.judged.content_version);
        let mut versions = phone.chain(since).chain([&held.judged.content_version]);
        versions.all(|version| *version == self.content_version)
    }
}
