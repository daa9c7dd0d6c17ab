//! The rules as they are applied: no sources, no sentences, small enough for the phone.

use std::{fmt, str::FromStr};

use serde::{Deserialize, Serialize};

use super::{
    answers::Answers,
    fact::{Fact, Truth},
    field::Field,
};
use crate::visit::{Treatment, UnknownTerm, terms};

terms! {
    /// How soon to act, from the mildest. The words are `urgency.level.<term>`.
    Level {
        /// Often seen after such a treatment, and settles.
        Expected = "expected",
        Studio = "studio",
        SameDay = "same_day",
        Emergency = "emergency",
    }
}

#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Rules {
    pub rules: Vec<Rule>,
    /// In the order in which it is told.
    pub advice: Vec<AdviceRule>,
    pub levels: Vec<LevelAdvice>,
    /// In the order in which they are asked, as far as nothing is more urgent.
    pub questions: Vec<Question>,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Rule {
    pub id: String,
    pub level: Level,
    /// It holds when all facts of one of these rows do.
    pub when: Vec<Vec<Fact>>,
    /// Unless all facts of one of these rows are known to: another rule then says more.
    #[serde(default)]
    pub unless: Vec<Vec<Fact>>,
    /// Only when one of these was done.
    #[serde(default)]
    pub after: Vec<Treatment>,
    /// Only when none of these was.
    #[serde(default)]
    pub not_after: Vec<Treatment>,
    /// Raises a report that is at this level by the other rules, and no other.
    #[serde(default)]
    pub raises: Option<Level>,
    /// A field that was not asked counts as "no" here; "not sure" never does.
    #[serde(default)]
    pub unasked_is_no: bool,
    /// Holds as well when something is not known that could be more urgent, up to its own level.
    #[serde(default)]
    pub unknown: bool,
    pub advice: Vec<String>,
}

impl Rule {
    /// Of the row that comes nearest to holding.
    pub fn truth(&self, answers: &Answers) -> Truth {
        let done = |list: &[Treatment]| list.iter().any(|one| answers.treatments.contains(one));
        if !self.after.is_empty() && !done(&self.after) || done(&self.not_after) {
            return Truth::No;
        }
        let mut truth = Truth::No;
        for row in &self.when {
            truth = match (self.row(row, answers), truth) {
                (Truth::Yes, _) => {
                    let more = |row: &Vec<Fact>| self.row(row, answers) == Truth::Yes;
                    return if self.unless.iter().any(more) {
                        Truth::No
                    } else {
                        Truth::Yes
                    };
                }
                (Truth::Open, _) | (_, Truth::Open) => Truth::Open,
                (Truth::NotSure, _) => Truth::NotSure,
                (Truth::No, so_far) => so_far,
            };
        }
        truth
    }

    fn row(&self, row: &[Fact], answers: &Answers) -> Truth {
        let mut truth = Truth::Yes;
        for fact in row {
            truth = match (fact.truth(answers), truth) {
                (Truth::No, _) => return Truth::No,
                (Truth::Open, _) if self.unasked_is_no => return Truth::No,
                (Truth::NotSure, _) | (_, Truth::NotSure) => Truth::NotSure,
                (Truth::Open, _) => Truth::Open,
                (Truth::Yes, so_far) => so_far,
            };
        }
        truth
    }
}

/// One piece of advice; its sentence is the word `urgency.advice.<id>`.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct AdviceRule {
    pub id: String,
    /// Left out beside one of these, which say the same or more.
    #[serde(default)]
    pub not_with: Vec<String>,
    /// Told at a higher level than its rule's as well.
    #[serde(default)]
    pub at_any_level: bool,
}

/// What is advised at a level, whichever rule led there.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct LevelAdvice {
    pub level: Level,
    pub advice: Vec<String>,
}

/// One question, answered with one tap; its sentence is the word `urgency.ask.<id>`.
///
/// With one field its answers are the field's. With several, each is a sign that may be there (`urgency.sign.<field>`),
/// beside "none of these" and "not sure".
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Question {
    pub id: String,
    pub fields: Vec<Field>,
    /// About an eye: before any other that is as urgent.
    #[serde(default)]
    pub eye: bool,
    /// Answered "no" together with this one.
    #[serde(default)]
    pub none_means: Vec<Field>,
    /// The ends of the times to offer, in hours, rising; the first is offered by itself.
    #[serde(default)]
    pub hours: Vec<u32>,
}
