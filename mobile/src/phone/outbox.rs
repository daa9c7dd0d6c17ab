//! The reports that the studio has not acknowledged yet. One leaves the phone only when the studio says that it is on
//! disk, or that it cannot be taken as it is.

use serde::{Deserialize, Serialize};
use shared_types::{
    page::form::Filled,
    reaction::Report,
    wire::{Problem, Receipt},
};
use uuid::Uuid;

use super::{
    json, net,
    store::{self, Kept},
};

/// A report on its way.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Unsent {
    /// Makes sending it twice harmless.
    pub id: Uuid,
    /// As it travels, in JSON.
    pub body: String,
    /// As it was typed, should the studio want it mended.
    pub form: Filled,
}

/// What became of one attempt.
#[derive(Debug)]
pub enum Outcome {
    Received(Receipt),
    /// No answer, or one that says "later": it stays on the phone.
    Later,
    /// It cannot be taken as it is; the studio's sentence, if there was one, and the form again.
    Refused(Option<String>, Filled),
}

/// Keeps a report for sending. False when the phone would not keep it. A report that waits already is not kept twice.
pub fn put(path: &str, report: &Report, form: Filled) -> bool {
    let Some(body) = json::write(report) else {
        return false;
    };
    let mut all = waiting(path);
    if all.iter().any(|unsent| unsent.body == body) {
        return true;
    }
    all.push(Unsent {
        id: Uuid::new_v4(),
        body,
        form,
    });
    store::keep(path, Kept::Unsent, &all)
}

/// What waits, oldest first.
pub fn waiting(path: &str) -> Vec<Unsent> {
    store::read(path, Kept::Unsent).unwrap_or_default()
}

/// Tries once to hand over the oldest that waits. `None` when nothing does.
pub async fn hand_over(path: &str) -> Option<Outcome> {
    let unsent = waiting(path).into_iter().next()?;
    let answer = net::ask(
        "PUT",
        &format!("{path}/reports/{}", unsent.id),
        Some(&unsent.body),
    )
    .await;
    let outcome = match answer {
        Some(answer) if matches!(answer.status, 200 | 201) => match answer.read::<Receipt>() {
            Some(receipt) if receipt.id == unsent.id => Outcome::Received(receipt),
            _ => Outcome::Later,
        },
        // Worth another try: time-out, too many at once, and everything that is the server's own trouble.
        Some(answer) if matches!(answer.status, 408 | 425 | 429 | 500..) => Outcome::Later,
        Some(answer) => Outcome::Refused(
            answer.read::<Problem>().map(|problem| problem.detail),
            unsent.form,
        ),
        None => Outcome::Later,
    };
    if !matches!(outcome, Outcome::Later) {
        take_out(path, unsent.id);
    }
    Some(outcome)
}

/// Another tab of the same page may have changed the list meanwhile, so it is read again.
fn take_out(path: &str, id: Uuid) {
    let mut rest = waiting(path);
    rest.retain(|unsent| unsent.id != id);
    if rest.is_empty() {
        store::drop(path, Kept::Unsent);
    } else {
        store::keep(path, Kept::Unsent, &rest);
    }
}
