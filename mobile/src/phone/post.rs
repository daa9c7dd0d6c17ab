//! Sending from a page: drafts survive, and what was written is kept on the phone until the studio has it.

use std::{
    cell::{Cell, RefCell},
    rc::Rc,
};

use dioxus::prelude::*;
use shared_types::{
    page::form::Filled,
    reaction::{Fault, Purpose},
    wire::Receipt,
    wish::{Span, Wish},
};

use super::{
    clock, form, json,
    outbox::{self, Outcome, Unsent},
    page_view, photos,
    store::{self, Kept},
};
use crate::client::{
    desk::{Desk, Sends},
    errand::Errand,
    life::{Live, Sending},
};

/// Pauses between attempts to hand something over: short at first, then once a minute.
const PAUSES_MILLIS: [i32; 4] = [3_000, 8_000, 20_000, 60_000];
/// Kept for longer than this, the phone may have it deleted: browsers of one family empty what a page keeps after seven
/// days in which nobody opened it.
const LONG_SECONDS: i64 = 7 * 24 * 60 * 60;

/// Answers of a report's draft are asked for anew after this. Our own careful choice.
const ANSWERS_SECONDS: i64 = 6 * 60 * 60;
/// When a draft was kept, in seconds since 1970; beside its fields.
const KEPT_AT: &str = "kept_at";

thread_local! {
    static HANDING_OVER: Cell<bool> = const { Cell::new(false) };
    static ATTEMPTS: Cell<usize> = const { Cell::new(0) };
    static SENDER: RefCell<Option<Sender>> = const { RefCell::new(None) };
}

/// The page that sends, and what it does when the studio has something.
#[derive(Clone)]
pub struct Sender {
    pub desk: Desk,
    pub live: Live,
    pub received: Rc<dyn Fn(&Receipt)>,
    /// What it does when a form of its was emptied (true) because all of it is kept now, or filled in again.
    pub emptied: Rc<dyn Fn(bool)>,
}

/// Says what is still on the phone, fills drafts in, and begins to hand over. `forms`: those that the page has.
pub fn begin(sender: &Sender, forms: &[Errand]) {
    let (desk, live) = (&sender.desk, sender.live);
    SENDER.set(Some(sender.clone()));
    for unsent in outbox::waiting(desk.path()) {
        say(live, unsent.errand(), kept(&unsent));
    }
    // What the server sent back to be mended is newer than a draft.
    if !desk.came_back() {
        for errand in forms.iter().copied() {
            if let Some(draft) = store::read::<Filled>(desk.path(), draft_of(errand)) {
                form::fill(errand, &still_true(errand, draft));
            }
        }
    }
    hand_over(sender.clone());
}

/// Takes what was written out of the form. False when the page cannot do it and the plain form should be posted.
pub fn submit(desk: &Desk, mut live: Live, errand: Errand) -> bool {
    let Some(mut filled) = form::read(errand) else {
        return false;
    };
    let body = match read(&**desk, errand, &filled) {
        Some(Ok(body)) => body,
        Some(Err(faults)) => {
            for fault in faults {
                filled.blame(fault.field, desk.words().say(fault.key));
            }
            live.form.set(filled);
            page_view::after(0, move || form::show(errand.first_fault()));
            return true;
        }
        None => return false,
    };
    if !outbox::put(desk.path(), errand, body, filled) {
        return false;
    }
    store::drop(desk.path(), draft_of(errand));
    form::clear(errand);
    live.form.set(Filled::default());
    SENDER.with_borrow(|sender| {
        if let Some(sender) = sender {
            (sender.emptied)(true);
        }
    });
    page_view::after(0, move || form::show(errand.told_at()));
    go(desk.clone(), live);
    true
}

/// Begins to send at once what was just kept.
pub fn go(desk: Desk, live: Live) {
    ATTEMPTS.set(0);
    let sender = SENDER.with_borrow(|sender| sender.clone());
    hand_over(sender.unwrap_or(Sender {
        desk,
        live,
        received: Rc::new(|_| {}),
        emptied: Rc::new(|_| {}),
    }));
}

/// What a form holds, as JSON, or what keeps it from being taken. `None` when this page cannot tell.
fn read(desk: &dyn Sends, errand: Errand, filled: &Filled) -> Option<Result<String, Vec<Fault>>> {
    match errand {
        Errand::Report => match desk.report(filled, clock::minutes_since(desk.finished_at()))? {
            Ok(mut report) => {
                report.photos = photos::chosen();
                let faults = report.faults();
                if !faults.is_empty() {
                    return Some(Err(faults));
                }
                json::write(&report).map(Ok)
            }
            Err(faults) => Some(Err(faults)),
        },
        Errand::Wish => match Wish::from_form(filled, Span::on_the_phone(desk.first_day())) {
            Ok(wish) => json::write(&wish).map(Ok),
            Err(faults) => Some(Err(faults)),
        },
        Errand::FollowUp => None,
    }
}

/// A draft without what was answered too long ago: how it looks and feels now may call for something else.
fn still_true(errand: Errand, draft: Filled) -> Filled {
    let kept_at = draft.value(KEPT_AT).parse().unwrap_or(0);
    if errand != Errand::Report || clock::now().timestamp() - kept_at < ANSWERS_SECONDS {
        return draft;
    }
    let mut rest = Filled::default();
    for name in [form::ID, "words", "reach"] {
        rest.put(name, draft.value(name));
    }
    rest
}

const fn draft_of(errand: Errand) -> Kept {
    match errand {
        Errand::Wish => Kept::WishDraft,
        _ => Kept::Draft,
    }
}

/// Keeps what was typed. Consents are to be ticked anew: they are given when sending, not when drafting.
pub fn keep_draft(desk: &dyn Sends, errand: Errand) {
    if let Some(mut draft) = form::read(errand) {
        for purpose in Purpose::ALL {
            draft.forget(purpose.field());
        }
        draft.put(KEPT_AT, clock::now().timestamp().to_string());
        store::keep(desk.path(), draft_of(errand), &draft);
    }
}

/// Tries to hand over what waits, and again after a pause for as long as the page is open.
pub fn hand_over(sender: Sender) {
    let (desk, live) = (sender.desk.clone(), sender.live);
    let waiting = outbox::waiting(desk.path());
    if HANDING_OVER.get() || waiting.is_empty() {
        return;
    }
    HANDING_OVER.set(true);
    for unsent in &waiting {
        say(live, unsent.errand(), Sending::Trying);
    }
    wasm_bindgen_futures::spawn_local(async move {
        let outcome = outbox::hand_over(desk.path()).await;
        HANDING_OVER.set(false);
        let Some((errand, outcome)) = outcome else {
            // Another tab of the same page was faster.
            for errand in Errand::ALL {
                if *live.sending(errand).peek() == Sending::Trying {
                    say(live, errand, Sending::Nothing);
                }
            }
            return;
        };
        match outcome {
            Outcome::Received(receipt) => {
                ATTEMPTS.set(0);
                (sender.received)(&receipt);
                say(live, errand, Sending::Received(receipt.received));
                hand_over(sender);
            }
            Outcome::Refused(why, form) => {
                form::fill(errand, &form);
                (sender.emptied)(false);
                if errand != Errand::FollowUp {
                    keep_draft(&*desk, errand);
                }
                say(live, errand, Sending::Refused(why));
                // What stands behind it goes on, unless that would take the sentence away.
                let rest = outbox::waiting(desk.path());
                if rest.iter().all(|unsent| unsent.errand() != errand) {
                    hand_over(sender);
                }
            }
            Outcome::Later => {
                for unsent in outbox::waiting(desk.path()) {
                    say(live, unsent.errand(), kept(&unsent));
                }
                let attempt = ATTEMPTS.get();
                ATTEMPTS.set(attempt + 1);
                let pause = PAUSES_MILLIS.get(attempt).copied().unwrap_or(60_000);
                page_view::after(pause, move || hand_over(sender));
            }
        }
    });
}

fn kept(unsent: &Unsent) -> Sending {
    if clock::now().timestamp() - unsent.since > LONG_SECONDS {
        Sending::KeptLong
    } else {
        Sending::Kept
    }
}

/// Says where something is, unless it says so already.
fn say(live: Live, errand: Errand, sending: Sending) {
    let mut place = live.sending(errand);
    if *place.peek() != sending {
        place.set(sending);
    }
}
