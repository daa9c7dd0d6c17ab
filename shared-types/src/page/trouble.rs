//! The page on which a client finds out what to do when something is not right, and tells the studio.

use chrono::{DateTime, Utc, serde::ts_seconds};
use serde::{Deserialize, Serialize};
use uuid::Uuid;

use super::form::Filled;
use crate::{
    reaction::{Report, Told},
    urgency::{AnswerError, Answers, Rules, Walk, judge, walk},
    visit::{Treatment, UnknownTerm},
    words::Words,
};

/// What the phone needs to ask and to advise without network. The questions, the advice and the report's form are drawn by
/// the server, whole; the phone shows of them what its rules say.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct TroublePage {
    /// The build that rendered this; another build leaves it as plain HTML.
    pub build: String,
    #[serde(with = "ts_seconds")]
    pub now: DateTime<Utc>,
    /// The keys that the phone says itself.
    pub words: Words,
    pub studio_name: String,
    /// `/MY/SECRET`.
    pub path: String,
    #[serde(with = "ts_seconds")]
    pub finished_at: DateTime<Utc>,
    pub treatments: Vec<Treatment>,
    pub rules: Rules,
    /// Of the content that the rules come from.
    pub content_version: String,
    /// The id that a plain form sends; the phone makes its own.
    pub form_id: Uuid,
    /// The form that came back to be mended.
    pub form: Filled,
    /// Stays behind when the state travels.
    #[serde(skip)]
    pub still: TroubleStill,
}

/// The parts that the server alone draws, as HTML.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct TroubleStill {
    /// BCP 47.
    pub language: String,
    /// Of the document; plain text.
    pub title: String,
    pub head: String,
    pub emergency: String,
    pub questions: String,
    pub advice: String,
    pub tell: String,
    pub foot: String,
}

/// Questions whose answers tell the studio more, asked with the report where they were not on the way.
pub const ALSO: [&str; 5] = ["redness", "itch", "pain", "trend", "onset"];

impl TroublePage {
    /// How far somebody has come, so many whole minutes after the visit.
    ///
    /// # Errors
    /// An answer that its question does not offer.
    pub fn walk(&self, form: &Filled, minutes: u32) -> Result<Walk<'_>, AnswerError> {
        let known = Answers::known(&self.treatments, minutes);
        walk(&self.rules, &known, form)
    }

    /// The report that the form holds, with what the phone told on the way.
    ///
    /// # Errors
    /// An answer or a place that the form does not offer: nobody can have chosen it.
    pub fn told_by(&self, form: &Filled, minutes: u32) -> Result<Report, Untold> {
        let walk = self.walk(form, minutes)?;
        let told = Told::new(&judge(&self.rules, &walk.answers), &self.content_version);
        let mut answers = walk.answers;
        for id in ALSO.iter().filter(|id| !walk.asked.contains(id)) {
            answers.take(&self.rules, id, form)?;
        }
        // What was done is the studio's to say.
        answers.treatments.clear();
        let report = Report::from_form(answers, form)?;
        Ok(Report {
            told: Some(told),
            ..report
        })
    }
}

/// A form that holds what it does not offer.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Untold {
    #[error(transparent)]
    Answer(#[from] AnswerError),
    #[error(transparent)]
    Place(#[from] UnknownTerm),
}
