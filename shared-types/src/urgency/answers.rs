//! What somebody answered.

use chrono::TimeDelta;
use serde::Deserialize;

use super::{
    field::{Field, HOURS_MOST, NOT_SURE, Scale},
    given::{Given, GivenFields},
};
use crate::visit::Treatment;

/// The answer to one field.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Answer {
    /// Not asked, or left out.
    #[default]
    Open,
    NotSure,
    /// The place in the field's scale; for times, whole minutes.
    At(u32),
}

/// Everything answered so far. In JSON an object of fields; those left open are left out.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
#[serde(try_from = "GivenFields")]
pub struct Answers {
    answers: [Answer; Field::ALL.len()],
    /// In minutes: where the first sign came between two times, the earlier one. The later one is the answer.
    begun_from: Option<u32>,
    /// What was done at the visit. The studio knows it; it is never asked.
    pub treatments: Vec<Treatment>,
}

impl Default for Answers {
    fn default() -> Self {
        Self {
            answers: [Answer::Open; Field::ALL.len()],
            begun_from: None,
            treatments: Vec::new(),
        }
    }
}

/// What keeps answers from being taken.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum AnswerError {
    #[error("{0}: this field is not known")]
    UnknownField(String),
    #[error("{0}: this field is given twice")]
    Twice(String),
    #[error("{field}: given `{given}`; allowed is {allowed}")]
    NotAllowed {
        field: String,
        given: String,
        allowed: String,
    },
}

/// Whole minutes, as answers hold times; none for a time that is still to come.
pub fn whole_minutes(time: TimeDelta) -> u32 {
    u32::try_from(time.num_minutes().max(0)).unwrap_or(u32::MAX)
}

impl Answers {
    /// What is known without asking: what was done, and so many whole minutes ago.
    pub fn known(treatments: &[Treatment], minutes: u32) -> Self {
        Self {
            treatments: treatments.to_vec(),
            ..Self::default().with(Field::HoursSinceVisit, Answer::At(minutes))
        }
    }

    pub fn get(&self, field: Field) -> Answer {
        // Every field has its place.
        self.answers
            .get(field as usize)
            .copied()
            .unwrap_or_default()
    }

    pub fn set(&mut self, field: Field, answer: Answer) {
        if let Some(place) = self.answers.get_mut(field as usize) {
            *place = answer;
        }
        if field == Field::OnsetHours {
            self.begun_from = None;
        }
    }

    /// How many minutes after the visit the first sign came, at the earliest; [`Field::OnsetHours`] says at the latest.
    pub fn begun_from(&self) -> Option<u32> {
        match self.get(Field::OnsetHours) {
            Answer::At(latest) => Some(self.begun_from.unwrap_or(latest)),
            Answer::Open | Answer::NotSure => None,
        }
    }

    /// With one answer more.
    pub fn with(mut self, field: Field, answer: Answer) -> Self {
        self.set(field, answer);
        self
    }

    /// Takes an answer as forms and JSON give it: a term, a whole number, hours (`"3"`, `"0.5"`, `"1:30"`), `not_sure`;
    /// nothing for an answer that is left open. When it began may lie between two times: `"6-12"`, or `"72-"` up to now.
    ///
    /// # Errors
    /// A field that can only be derived, or an answer that is not in its scale.
    pub fn put(&mut self, field: Field, text: &str) -> Result<(), AnswerError> {
        if field == Field::OnsetHours
            && let Some((one, other)) = between(text)
        {
            let (from, to) = (one.min(other), one.max(other));
            self.set(field, Answer::At(to));
            // Between two times that are one, it is that one.
            self.begun_from = (from < to).then_some(from);
            return Ok(());
        }
        let answer = if text.is_empty() {
            Some(Answer::Open)
        } else if text == NOT_SURE {
            Some(Answer::NotSure)
        } else {
            match field.scale() {
                Scale::OneOf(terms) => terms.iter().position(|term| *term == text),
                Scale::UpTo(most) => whole(text).filter(|number| *number <= most as usize),
                Scale::Hours => minutes(text).map(|minutes| minutes as usize),
            }
            .and_then(|place| u32::try_from(place).ok())
            .map(Answer::At)
        };
        match answer {
            Some(answer) if !field.is_derived() => {
                self.set(field, answer);
                Ok(())
            }
            _ => Err(AnswerError::NotAllowed {
                field: field.term().to_owned(),
                given: text.to_owned(),
                allowed: if field.is_derived() {
                    "nothing: it is reckoned from hours_since_visit and onset_hours".to_owned()
                } else {
                    field.allowed()
                },
            }),
        }
    }

    /// The answer as [`Answers::put`] takes it; `None` when it is open.
    pub fn text(&self, field: Field) -> Option<String> {
        match self.get(field) {
            Answer::Open => None,
            Answer::NotSure => Some(NOT_SURE.to_owned()),
            Answer::At(place) => match field.scale() {
                Scale::OneOf(terms) => terms.get(place as usize).map(|term| (*term).to_owned()),
                Scale::UpTo(_) => Some(place.to_string()),
                Scale::Hours => Some(match self.begun_from {
                    Some(from) if field == Field::OnsetHours && place == HOURS_MOST * 60 => {
                        hours(from) + "-"
                    }
                    Some(from) if field == Field::OnsetHours => hours(from) + "-" + &hours(place),
                    _ => hours(place),
                }),
            },
        }
    }

    /// The same, unless a sign began later than now. A report is taken all the same: a clock that is wrong must not keep a
    /// client from being heard.
    ///
    /// # Errors
    /// [`Field::OnsetHours`] beyond [`Field::HoursSinceVisit`].
    pub fn in_order(self) -> Result<Self, AnswerError> {
        if let (Answer::At(visit), Some(onset)) =
            (self.get(Field::HoursSinceVisit), self.begun_from())
            && onset > visit
        {
            return Err(AnswerError::NotAllowed {
                field: Field::OnsetHours.term().to_owned(),
                given: self.text(Field::OnsetHours).unwrap_or_default(),
                allowed: "at most hours_since_visit: a sign that has begun did so before now"
                    .to_owned(),
            });
        }
        Ok(self)
    }

    /// The fields that have an answer, in the order of [`Field::ALL`].
    pub fn answered(&self) -> impl Iterator<Item = Field> {
        let all = Field::ALL.iter().copied();
        all.filter(|field| self.get(*field) != Answer::Open)
    }
}

/// Digits only: no sign, no blanks.
fn whole(text: &str) -> Option<usize> {
    is_digits(text).then(|| text.parse().ok()).flatten()
}

fn is_digits(text: &str) -> bool {
    !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit())
}

fn hours(minutes: u32) -> String {
    match minutes % 60 {
        0 => (minutes / 60).to_string(),
        rest => format!("{}:{rest:02}", minutes / 60),
    }
}

/// Two times in minutes, written in hours with a dash between; without the second, as late as is taken.
fn between(text: &str) -> Option<(u32, u32)> {
    let (one, other) = text.split_once('-')?;
    let other = if other.is_empty() {
        HOURS_MOST * 60
    } else {
        minutes(other)?
    };
    Some((minutes(one)?, other))
}

/// Whole minutes of hours written `3`, `0.5` or `1:30`, within what is allowed.
fn minutes(text: &str) -> Option<u32> {
    let minutes = if let Some((hours, minutes)) = text.split_once(':') {
        let minutes = whole(minutes).filter(|minutes| *minutes < 60)?;
        whole(hours)?.checked_mul(60)?.checked_add(minutes)?
    } else {
        let (hours, part) = text.split_once('.').unwrap_or((text, "0"));
        // Three places are finer than a minute.
        let places: String = part.chars().chain("000".chars()).take(3).collect();
        // However many there are.
        is_digits(part).then_some(())?;
        let part = (whole(&places)? * 60 + 500) / 1000;
        whole(hours)?.checked_mul(60)?.checked_add(part)?
    };
    let minutes = u32::try_from(minutes).ok()?;
    (minutes <= HOURS_MOST * 60).then_some(minutes)
}

impl TryFrom<GivenFields> for Answers {
    type Error = AnswerError;

    fn try_from(given: GivenFields) -> Result<Self, AnswerError> {
        let mut answers = Self::default();
        let mut seen: Vec<String> = Vec::new();
        for (name, value) in given.0 {
            if seen.contains(&name) {
                return Err(AnswerError::Twice(name));
            }
            if name == "treatments" {
                answers.treatments = treatments(&value)?;
            } else {
                let field = name.parse::<Field>();
                let field = field.map_err(|_| AnswerError::UnknownField(name.clone()))?;
                match value.text(field) {
                    Some(text) => answers.put(field, &text)?,
                    None => {
                        return Err(AnswerError::NotAllowed {
                            field: name,
                            given: value.shown(),
                            allowed: field.allowed(),
                        });
                    }
                }
            }
            seen.push(name);
        }
        Ok(answers)
    }
}

fn treatments(value: &Given) -> Result<Vec<Treatment>, AnswerError> {
    let refused = |given: String, allowed: String| AnswerError::NotAllowed {
        field: "treatments".to_owned(),
        given,
        allowed,
    };
    let all = || {
        let terms: Vec<_> = Treatment::ALL.iter().map(|one| one.term()).collect();
        format!("a list of {}", terms.join(", "))
    };
    match value {
        Given::Nothing => Ok(Vec::new()),
        Given::List(terms) => terms
            .iter()
            .map(|term| term.parse().map_err(|_| refused(term.clone(), all())))
            .collect(),
        other => Err(refused(other.shown(), all())),
    }
}
