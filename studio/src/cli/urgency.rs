//! `studio urgency`: how soon to act, and what to do, by the answers about a reaction.
//!
//! The question is an object of the fields of [`shared_types::urgency::Field`], each left out, `null`, `"not_sure"` or an
//! answer of its scale; yes and no may be written as JSON's own. `treatments` is what was done. The answer names what would be
//! asked next, as the phone would ask it.

use content::Content;
use serde::Serialize;
use shared_types::urgency::{AnswerError, Answers, GivenFields, judge, next_question, rinse_first};

use super::{CliError, input};

#[derive(Serialize)]
struct Answer<'a> {
    urgency: &'static str,
    rules: Vec<&'a str>,
    /// Ids; their sentences are the words `urgency.advice.<id>`.
    advice: Vec<&'a str>,
    /// Rinsing comes before any question.
    rinse_first: bool,
    /// `null` when no answer can change the advice any more, and in an emergency.
    next_question: Option<NextQuestion<'a>>,
}

#[derive(Serialize)]
struct NextQuestion<'a> {
    id: &'a str,
    fields: Vec<&'static str>,
    answered: usize,
    /// At most so many questions are left, this one included.
    left: usize,
}

/// Answers one set of answers in JSON with level, rules and advice in JSON.
///
/// # Errors
/// Input that is no JSON, an unknown field, a value that is not allowed: each by the name of its field.
pub fn urgency(input: &str, content: &Content) -> Result<String, CliError> {
    let given: GivenFields = input::read(input)?;
    let answers = Answers::try_from(given).and_then(Answers::in_order);
    let answers = answers.map_err(refused)?;
    let rules = content.catalogue.urgency.compiled();
    let verdict = judge(&rules, &answers);
    let next = next_question(&rules, &answers).map(|next| NextQuestion {
        id: &next.question.id,
        fields: next.fields.iter().map(|field| field.term()).collect(),
        answered: next.answered,
        left: next.left,
    });
    let answer = Answer {
        urgency: verdict.level.term(),
        rules: verdict.rules,
        advice: verdict.advice,
        rinse_first: rinse_first(&answers),
        next_question: next,
    };
    serde_json::to_string_pretty(&answer).map_err(CliError::Answer)
}

fn refused(error: AnswerError) -> CliError {
    match error {
        AnswerError::UnknownField(field) => CliError::Shape {
            what: format!(
                "unknown field `{field}`, expected treatments or one of {}",
                known()
            ),
            field,
        },
        AnswerError::Twice(field) => CliError::Shape {
            what: format!("`{field}` is given twice; give it once"),
            field,
        },
        AnswerError::NotAllowed {
            field,
            given,
            allowed,
        } => CliError::Value {
            field,
            given,
            allowed,
        },
    }
}

fn known() -> String {
    let fields = shared_types::urgency::Field::ALL.iter();
    let given = fields.filter(|field| !field.is_derived());
    given
        .map(|field| field.term())
        .collect::<Vec<_>>()
        .join(", ")
}

#[cfg(test)]
mod tests;
