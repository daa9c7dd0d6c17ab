//! The reports and wishes that the studio has not acknowledged yet. One leaves the phone only when the studio says that it is on
//! disk, or that it cannot be taken as it is.

use serde::Serialize;
use shared_types::{
    page::form::Filled,
    wire::{Problem, Receipt},
};
use uuid::Uuid;
use wasm_bindgen::JsValue;

use super::{
    clock, form, net,
    reading::{Readable, field},
    store::{self, Kept},
};
use crate::client::errand::Errand;

/// A report or a wish on its way.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Unsent {
    /// Makes sending it twice harmless.
    pub id: Uuid,
    /// Where it is taken, below the page's own address: `reports`, `wishes`, or `follow-ups/HOURS` of the report with
    /// this id.
    place: String,
    /// Since when it is here, in seconds since 1970.
    pub since: i64,
    /// As it travels, in JSON.
    pub body: String,
    /// As it was typed, should the studio want it mended.
    pub form: Filled,
}

impl Unsent {
    pub fn errand(&self) -> Errand {
        let mut all = Errand::ALL.into_iter();
        let place = |errand: &Errand| self.place.starts_with(errand.place());
        all.find(place).unwrap_or(Errand::Report)
    }

    /// The address that takes it.
    fn address(&self, path: &str) -> String {
        match self.errand() {
            Errand::FollowUp => format!("{path}/reports/{}/{}", self.id, self.place),
            _ => format!("{path}/{}/{}", self.place, self.id),
        }
    }
}

impl Readable for Unsent {
    fn read(value: &JsValue) -> Option<Self> {
        Some(Self {
            id: Readable::read(&field(value, "id"))?,
            place: Readable::read(&field(value, "place"))?,
            since: Readable::read(&field(value, "since"))?,
            body: Readable::read(&field(value, "body"))?,
            form: Readable::read(&field(value, "form"))?,
        })
    }
}

/// What became of one attempt.
#[derive(Debug)]
pub enum Outcome {
    Received(Receipt),
    /// No answer, or one that says "later": it stays on the phone.
    Later,
    /// It cannot be taken as it is; the studio's sentence, and the form again.
    Refused(String, Filled),
}

/// Keeps what was written, as JSON and as it was typed. False when the phone would not keep it. What waits already is
/// not kept twice.
pub fn put(path: &str, errand: Errand, body: String, form: Filled) -> bool {
    let id = form::id(&form).unwrap_or_else(Uuid::new_v4);
    add(path, id, errand.place().to_owned(), body, form)
}

/// Keeps what says something about a report that the studio has.
pub fn put_at(path: &str, report: Uuid, place: String, body: String) -> bool {
    add(path, report, place, body, Filled::default())
}

fn add(path: &str, id: Uuid, place: String, body: String, form: Filled) -> bool {
    let mut all = waiting(path);
    let same = |unsent: &Unsent| unsent.place == place && unsent.body == body;
    if all.iter().any(same) {
        return true;
    }
    all.push(Unsent {
        id,
        place,
        since: clock::now().timestamp(),
        body,
        form,
    });
    store::keep(path, Kept::Unsent, &all)
}

/// What waits, oldest first.
pub fn waiting(path: &str) -> Vec<Unsent> {
    store::read(path, Kept::Unsent).unwrap_or_default()
}

/// Tries once to hand over the oldest report that waits, or else the oldest wish. `None` when nothing does.
pub async fn hand_over(path: &str) -> Option<(Errand, Outcome)> {
    let mut all = waiting(path);
    let of = |errand: Errand| all.iter().position(|unsent| unsent.errand() == errand);
    let next = Errand::ALL.into_iter().find_map(of).unwrap_or(0);
    if all.is_empty() {
        return None;
    }
    let unsent = all.swap_remove(next);
    let errand = unsent.errand();
    let address = unsent.address(path);
    let answer = net::ask("PUT", &address, Some(&unsent.body)).await;
    let outcome = match answer {
        Some(answer) if matches!(answer.status, 200 | 201) => match answer.read::<Receipt>() {
            Some(receipt) if receipt.id == unsent.id => Outcome::Received(receipt),
            _ => Outcome::Later,
        },
        // Another tab sent what it had under the same id; this is something else.
        Some(answer) if answer.status == 409 && errand != Errand::FollowUp => {
            take_out(path, &unsent);
            add(path, Uuid::new_v4(), unsent.place, unsent.body, unsent.form);
            return Some((errand, Outcome::Later));
        }
        // Worth another try: time-out, too many at once, and everything that is the server's own trouble.
        Some(answer) if matches!(answer.status, 408 | 425 | 429 | 500..) => Outcome::Later,
        // Only the studio itself refuses; what stands in the way of it may be gone later.
        Some(answer) => match answer.read::<Problem>() {
            Some(problem) => Outcome::Refused(problem.detail, unsent.form.clone()),
            None => Outcome::Later,
        },
        None => Outcome::Later,
    };
    if !matches!(outcome, Outcome::Later) {
        take_out(path, &unsent);
    }
    Some((errand, outcome))
}

/// Another tab of the same page may have changed the list meanwhile, so it is read again.
fn take_out(path: &str, gone: &Unsent) {
    let mut rest = waiting(path);
    rest.retain(|unsent| unsent.id != gone.id || unsent.place != gone.place);
    if rest.is_empty() {
        store::drop(path, Kept::Unsent);
    } else {
        store::keep(path, Kept::Unsent, &rest);
    }
}
