//! How far somebody has come, as it follows from the form.

use std::cell::{Cell, RefCell};

use shared_types::{
    page::form::Filled,
    urgency::{Field, Question, Walk, rinse_first},
};

use super::super::{clock, form};
use crate::client::{errand::Errand, trouble::Trouble};

thread_local! {
    /// A question that is looked at again, or whose signs are still being ticked.
    static HELD: RefCell<Option<String>> = const { RefCell::new(None) };
    pub static RINSED: Cell<bool> = const { Cell::new(false) };
    /// A plain form came back to be mended: its sender is past the questions, until they go back to them.
    pub static MENDING: Cell<bool> = const { Cell::new(false) };
}

/// Stays with a question, by its id; with `None` the way goes on by itself.
pub fn hold(question: Option<String>) {
    HELD.set(question);
}

/// What the page shows.
pub enum Step<'a> {
    Rinse,
    /// A question, and which of its signs are still to be asked for.
    Question(&'a Question, Vec<Field>),
    Advice,
}

/// The form as it stands, the way through the questions by it, and what is shown for that.
pub struct Stand<'a> {
    pub filled: Filled,
    pub walk: Walk<'a>,
    pub step: Step<'a>,
}

impl<'a> Stand<'a> {
    /// `None` where the page cannot tell.
    pub fn read(page: &'a Trouble) -> Option<Self> {
        let filled = form::read(Errand::Report)?;
        let minutes = clock::minutes_since(page.finished_at);
        let walk = page.walk(&filled, minutes).ok()?;
        let step = step(page, &walk);
        Some(Self { filled, walk, step })
    }
}

fn step<'a>(page: &'a Trouble, walk: &Walk<'a>) -> Step<'a> {
    let next = walk.next.as_ref();
    let held = HELD.with_borrow(|held| {
        let mut all = page.rules.questions.iter();
        all.find(|one| Some(&one.id) == held.as_ref())
    });
    if let Some(held) = held {
        let is_next = next.is_some_and(|next| next.question.id == held.id);
        if is_next || walk.asked.contains(&held.id.as_str()) {
            return Step::Question(held, held.fields.clone());
        }
    }
    if rinse_first(&walk.answers) && !RINSED.get() {
        return Step::Rinse;
    }
    match next {
        Some(next) if !MENDING.get() => Step::Question(next.question, next.fields.clone()),
        _ => Step::Advice,
    }
}
