//! Which words say a level, a piece of advice, a question and its answers.

use super::{
    field::{Field, NOT_SURE, Scale},
    next::Next,
    rules::{AdviceRule, Level, Question},
};

impl Level {
    /// The key of its name.
    pub fn key(self) -> String {
        format!("urgency.level.{self}")
    }
}

impl AdviceRule {
    /// The key of its sentence.
    pub fn key(&self) -> String {
        advice_key(&self.id)
    }
}

/// The key of the sentence of a piece of advice.
pub fn advice_key(id: &str) -> String {
    format!("urgency.advice.{id}")
}

impl Question {
    /// The key of its sentence.
    pub fn key(&self) -> String {
        format!("urgency.ask.{}", self.id)
    }

    /// The key of what it says beside itself, a line each, where it says anything.
    pub fn more_key(&self) -> String {
        format!("urgency.more.{}", self.id)
    }

    /// Every answer that it can offer.
    pub fn offers(&self) -> Vec<Offer> {
        offers(self, &self.fields)
    }

    /// For each of the times among its offers, in their order: whether it has begun by so many minutes after the visit.
    pub fn begun(&self, minutes: u32) -> impl Iterator<Item = bool> {
        let from = self.hours.first().into_iter().chain(&self.hours);
        from.map(move |hour| hour * 60 <= minutes)
    }
}

impl Next<'_> {
    /// The answers to offer, "not sure" last.
    pub fn offers(&self) -> Vec<Offer> {
        offers(self.question, &self.fields)
    }
}

/// One answer to offer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Offer {
    /// As [`super::Answers::answer`] takes it.
    pub given: String,
    /// The key of its words; `None` for the numbers between the ends of a scale.
    pub key: Option<String>,
}

/// The first hour by itself, the times between two of them, and what came later than the last.
fn times(hours: &[u32]) -> Vec<String> {
    let first = hours.first().map(|hour| hour.to_string());
    let between = hours.windows(2).filter_map(|two| match two {
        [from, to] => Some(format!("{from}-{to}")),
        _ => None,
    });
    let later = hours.last().map(|hour| format!("{hour}-"));
    first.into_iter().chain(between).chain(later).collect()
}

fn offers(question: &Question, fields: &[Field]) -> Vec<Offer> {
    let said = |given: &str, key: String| Offer {
        given: given.to_owned(),
        key: Some(key),
    };
    let answer = |given: &str| said(given, format!("urgency.answer.{given}"));
    let mut offers: Vec<Offer> = match question.fields.as_slice() {
        [field] => match field.scale() {
            Scale::Hours => {
                let times = times(&question.hours).into_iter();
                times
                    .map(|time| said(&time, format!("urgency.{field}.{time}")))
                    .collect()
            }
            Scale::OneOf(["no", "yes"]) => vec![answer("yes"), answer("no")],
            Scale::OneOf(terms) => terms
                .iter()
                .map(|term| said(term, format!("urgency.{field}.{term}")))
                .collect(),
            Scale::UpTo(most) => (0..=most)
                .map(|number| Offer {
                    given: number.to_string(),
                    key: (number == 0 || number == most)
                        .then(|| format!("urgency.{field}.{number}")),
                })
                .collect(),
        },
        _ => {
            let signs = fields.iter();
            signs
                .map(|field| said(field.term(), format!("urgency.sign.{field}")))
                .chain([answer("none")])
                .collect()
        }
    };
    offers.push(answer(NOT_SURE));
    offers
}
