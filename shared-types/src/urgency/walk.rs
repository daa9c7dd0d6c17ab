//! The way through the questions, as it follows from what a form holds. Nothing of it is kept: going back and forth changes
//! the form, and the way is walked anew.

use super::{
    answers::{AnswerError, Answers},
    field::NOT_SURE,
    next::{Next, next_question},
    rules::{Question, Rules},
};
use crate::page::form::Filled;

/// What a form holds when somebody has ticked all that there is: none of the other signs.
pub const REST: &str = "rest";

/// Whether an answer speaks for every sign of its question that was not ticked.
pub fn speaks_for_the_rest(given: &str) -> bool {
    ["none", REST, NOT_SURE].contains(&given)
}

/// How far somebody has come.
#[derive(Clone, Debug)]
pub struct Walk<'a> {
    /// The questions that were asked and answered, in order, by id.
    pub asked: Vec<&'a str>,
    /// The answers to them. What a form holds beside is not counted: it was not asked for.
    pub answers: Answers,
    /// `None` at the end.
    pub next: Option<Next<'a>>,
}

/// Walks from the beginning with what is known without asking, for as long as the form has an answer to what is asked.
///
/// # Errors
/// An answer that its question does not offer.
pub fn walk<'a>(rules: &'a Rules, known: &Answers, form: &Filled) -> Result<Walk<'a>, AnswerError> {
    let mut walk = Walk {
        asked: Vec::new(),
        answers: known.clone(),
        next: None,
    };
    loop {
        walk.next = next_question(rules, &walk.answers);
        let Some(next) = &walk.next else {
            return Ok(walk);
        };
        let question = next.question;
        let before = walk.answers.clone();
        take(&mut walk.answers, question, form)?;
        if walk.answers == before {
            return Ok(walk);
        }
        if !walk.asked.contains(&question.id.as_str()) {
            walk.asked.push(&question.id);
        }
    }
}

/// Every answer that a plain form holds, where all questions stand on one page.
///
/// # Errors
/// An answer that its question does not offer.
pub fn all(rules: &Rules, known: &Answers, form: &Filled) -> Result<Answers, AnswerError> {
    let mut answers = known.clone();
    for question in &rules.questions {
        take(&mut answers, question, form)?;
    }
    Ok(answers)
}

impl Answers {
    /// The form's answer to one question, by its id; nothing when there is none.
    ///
    /// # Errors
    /// An answer that the question does not offer.
    pub fn take(&mut self, rules: &Rules, id: &str, form: &Filled) -> Result<(), AnswerError> {
        match rules.questions.iter().find(|question| question.id == id) {
            Some(question) => take(self, question, form),
            None => Ok(()),
        }
    }
}

/// The signs that were ticked first, then "none of these" or "not sure", which speak for the rest.
fn take(answers: &mut Answers, question: &Question, form: &Filled) -> Result<(), AnswerError> {
    let rest = |given: &&str| speaks_for_the_rest(given);
    let several = question.fields.len() > 1;
    for given in form
        .all(&question.id)
        .filter(|given| !several || !rest(given))
    {
        answers.answer(question, given)?;
    }
    if several {
        for given in form.all(&question.id).filter(rest) {
            let given = if given == REST { "none" } else { given };
            answers.answer(question, given)?;
        }
    }
    Ok(())
}
