//! The client's page alive: time moves, drafts survive, reports and wishes are sent until the studio has them.

use std::cell::Cell;

use dioxus::prelude::*;
use shared_types::{
    page::{client::ClientPage, form::Filled},
    reaction::{Fault, Report},
    wire::Standing,
    wish::{Span, Wish},
};

use super::{
    clock, form, json, net,
    outbox::{self, Outcome},
    page_view,
    store::{self, Kept},
};
use crate::client::{
    Page,
    errand::Errand,
    life::{Live, Sending},
};

const TICK_MILLIS: i32 = 15_000;
/// Pauses between attempts to hand something over: short at first, then once a minute.
const PAUSES_MILLIS: [i32; 4] = [3_000, 8_000, 20_000, 60_000];
/// What the page shows of reports and wishes is asked for again when it is older than this.
const FRESH_SECONDS: i64 = 30;

thread_local! {
    static HANDING_OVER: Cell<bool> = const { Cell::new(false) };
    static ATTEMPTS: Cell<usize> = const { Cell::new(0) };
    static ASKED_AT: Cell<i64> = const { Cell::new(0) };
}

/// Starts everything that moves. Called once, after the page is on screen.
pub fn begin(page: Page, mut live: Live) {
    keep_page_for_offline();
    page_view::mark_alive();
    live.now.set(clock::now());
    ASKED_AT.set(page.now.timestamp());

    for unsent in outbox::waiting(&page.path) {
        say(live, unsent.errand(), Sending::Kept);
    }
    // What the server sent back to be mended is newer than a draft.
    if page.form == Filled::default() {
        for errand in Errand::ALL {
            if let Some(draft) = store::read(&page.path, draft_of(errand)) {
                form::fill(errand, &draft);
            }
        }
    }

    page_view::every(TICK_MILLIS, {
        let page = page.clone();
        let mut live = live;
        move || {
            live.now.set(clock::now());
            // Without a report or a wish nothing can change here that the phone does not know itself.
            if !live.reports.peek().is_empty() || !live.wishes.peek().is_empty() {
                ask_standing(page.clone(), live);
            }
        }
    });
    page_view::on_occasion({
        let page = page.clone();
        let mut live = live;
        move || {
            live.now.set(clock::now());
            hand_over(page.clone(), live);
            ask_standing(page.clone(), live);
        }
    });
    hand_over(page.clone(), live);
    ask_standing(page.clone(), live);
    tell_opened(page);
}

/// Takes what was written out of the form. False when the page cannot do it and the plain form should be posted.
pub fn submit(page: &Page, mut live: Live, errand: Errand) -> bool {
    let Some(mut form) = form::read(errand) else {
        return false;
    };
    let body = match read(page, errand, &form) {
        Some(Ok(body)) => body,
        Some(Err(faults)) => {
            for fault in faults {
                form.blame(fault.field, page.words.say(fault.key));
            }
            live.form.set(form);
            page_view::after(0, move || form::show(errand.first_fault()));
            return true;
        }
        None => return false,
    };
    if !outbox::put(&page.path, errand, body, form) {
        return false;
    }
    store::drop(&page.path, draft_of(errand));
    form::clear(errand);
    live.form.set(Filled::default());
    say(live, errand, Sending::Trying);
    page_view::after(0, move || form::show(errand.told_at()));
    ATTEMPTS.set(0);
    hand_over(page.clone(), live);
    true
}

/// What a form holds, as JSON, or what keeps it from being taken. `None` when this page cannot tell.
fn read(page: &ClientPage, errand: Errand, form: &Filled) -> Option<Result<String, Vec<Fault>>> {
    match errand {
        Errand::Report => {
            let report = Report::from_form(form).ok()?;
            let faults = report.faults();
            if !faults.is_empty() {
                return Some(Err(faults));
            }
            json::write(&report).map(Ok)
        }
        Errand::Wish => match Wish::from_form(form, Span::on_the_phone(&page.first_day)) {
            Ok(wish) => json::write(&wish).map(Ok),
            Err(faults) => Some(Err(faults)),
        },
    }
}

const fn draft_of(errand: Errand) -> Kept {
    match errand {
        Errand::Report => Kept::Draft,
        Errand::Wish => Kept::WishDraft,
    }
}

/// Keeps what was typed. The consent is to be ticked anew: it is given when sending, not when drafting.
pub fn keep_draft(page: &ClientPage, errand: Errand) {
    if let Some(mut draft) = form::read(errand) {
        draft.forget("consent");
        store::keep(&page.path, draft_of(errand), &draft);
    }
}

/// Tries to hand over what waits, and again after a pause for as long as the page is open.
fn hand_over(page: Page, live: Live) {
    let waiting = outbox::waiting(&page.path);
    if HANDING_OVER.get() || waiting.is_empty() {
        return;
    }
    HANDING_OVER.set(true);
    for unsent in &waiting {
        say(live, unsent.errand(), Sending::Trying);
    }
    wasm_bindgen_futures::spawn_local(async move {
        let outcome = outbox::hand_over(&page.path).await;
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
                say(live, errand, Sending::Received(receipt.received));
                ASKED_AT.set(0);
                ATTEMPTS.set(0);
                ask_standing(page.clone(), live);
                hand_over(page, live);
            }
            Outcome::Refused(why, form) => {
                form::fill(errand, &form);
                keep_draft(&page, errand);
                let refused = || page.words.say("client.sending.refused").to_owned();
                let why = why.unwrap_or_else(refused);
                say(live, errand, Sending::Refused(why));
                // What stands behind it goes on, unless that would take the sentence away.
                let rest = outbox::waiting(&page.path);
                if rest.iter().all(|unsent| unsent.errand() != errand) {
                    hand_over(page, live);
                }
            }
            Outcome::Later => {
                for unsent in outbox::waiting(&page.path) {
                    say(live, unsent.errand(), Sending::Kept);
                }
                let attempt = ATTEMPTS.get();
                ATTEMPTS.set(attempt + 1);
                let pause = PAUSES_MILLIS.get(attempt).copied().unwrap_or(60_000);
                page_view::after(pause, move || hand_over(page, live));
            }
        }
    });
}

/// Says where a report or a wish is, unless it says so already.
fn say(live: Live, errand: Errand, sending: Sending) {
    let mut place = live.sending(errand);
    if *place.peek() != sending {
        place.set(sending);
    }
}

/// Asks how the client's reports and wishes stand, when the page is looked at and what it shows is not fresh.
fn ask_standing(page: Page, mut live: Live) {
    let now = clock::now().timestamp();
    if !page_view::is_visible() || now - ASKED_AT.get() < FRESH_SECONDS {
        return;
    }
    ASKED_AT.set(now);
    wasm_bindgen_futures::spawn_local(async move {
        let answer = net::ask("GET", &format!("{}/standing", page.path), None).await;
        live.offline.set(answer.is_none());
        if let Some(standing) = answer
            .filter(|answer| answer.status == 200)
            .and_then(|answer| answer.read::<Standing>())
        {
            if *live.reports.peek() != standing.reports {
                live.reports.set(standing.reports);
            }
            if *live.wishes.peek() != standing.wishes {
                live.wishes.set(standing.wishes);
            }
        }
    });
}

/// Tells the studio that the page was opened in this language: from this phone once, and again when another was chosen.
/// A visit by a link preview or a scanner's own look does not run this, and so does not count.
fn tell_opened(page: Page) {
    let language = page_view::language();
    if store::read::<String>(&page.path, Kept::Opened).as_ref() == Some(&language) {
        return;
    }
    wasm_bindgen_futures::spawn_local(async move {
        let address = format!("{}/opened?language={language}", page.path);
        let answer = net::ask("POST", &address, None).await;
        if answer.is_some_and(|answer| answer.status == 204) {
            store::keep(&page.path, Kept::Opened, &language);
        }
    });
}

/// Registers the worker that keeps the page for the next time without network.
fn keep_page_for_offline() {
    if let Some(window) = web_sys::window() {
        let container = window.navigator().service_worker();
        // Undefined where the page did not come over a safe connection; then there is no keeping.
        if !container.is_undefined() {
            let _ = container.register("/MY/worker.js");
        }
    }
}
