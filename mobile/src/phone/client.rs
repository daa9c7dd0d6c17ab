//! The client's page alive: time moves, drafts survive, reports are sent until the studio has them.

use std::cell::Cell;

use dioxus::prelude::*;
use shared_types::{
    page::{client::ClientPage, form::Filled},
    reaction::Report,
    wire::Standing,
};

use super::{
    clock, form, net,
    outbox::{self, Outcome},
    page_view,
    store::{self, Kept},
};
use crate::client::{
    Page,
    life::{Live, Sending},
};

const TICK_MILLIS: i32 = 15_000;
/// Pauses between attempts to hand over a report: short at first, then once a minute.
const PAUSES_MILLIS: [i32; 4] = [3_000, 8_000, 20_000, 60_000];
/// What the page shows of the reports is asked for again when it is older than this.
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

    if !outbox::waiting(&page.path).is_empty() {
        live.sending.set(Sending::Kept);
    }
    // What the server sent back to be mended is newer than the draft.
    if page.form == Filled::default()
        && let Some(draft) = store::read(&page.path, Kept::Draft)
    {
        form::fill(&draft);
    }

    page_view::every(TICK_MILLIS, {
        let page = page.clone();
        let mut live = live;
        move || {
            live.now.set(clock::now());
            // Without a report nothing can change here that the phone does not know itself.
            if !live.reports.peek().is_empty() {
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

/// Takes the report out of the form. False when the page cannot do it and the plain form should be posted.
pub fn submit(page: &Page, mut live: Live) -> bool {
    let Some(mut form) = form::read() else {
        return false;
    };
    let Ok(report) = Report::from_form(&form) else {
        return false;
    };
    let faults = report.faults();
    if !faults.is_empty() {
        for fault in faults {
            form.blame(fault.field, page.words.say(fault.key));
        }
        live.form.set(form);
        page_view::after(0, || form::show("#report .fault"));
        return true;
    }
    if !outbox::put(&page.path, &report, form) {
        return false;
    }
    store::drop(&page.path, Kept::Draft);
    form::clear();
    live.form.set(Filled::default());
    live.sending.set(Sending::Trying);
    page_view::after(0, || form::show(".whereabouts"));
    ATTEMPTS.set(0);
    hand_over(page.clone(), live);
    true
}

/// Keeps what was typed. The consent is to be ticked anew: it is given when sending, not when drafting.
pub fn keep_draft(page: &ClientPage) {
    if let Some(mut draft) = form::read() {
        draft.forget("consent");
        store::keep(&page.path, Kept::Draft, &draft);
    }
}

/// Tries to hand over what waits, and again after a pause for as long as the page is open.
fn hand_over(page: Page, mut live: Live) {
    if HANDING_OVER.get() || outbox::waiting(&page.path).is_empty() {
        return;
    }
    HANDING_OVER.set(true);
    if *live.sending.peek() != Sending::Trying {
        live.sending.set(Sending::Trying);
    }
    wasm_bindgen_futures::spawn_local(async move {
        let outcome = outbox::hand_over(&page.path).await;
        HANDING_OVER.set(false);
        match outcome {
            None => live.sending.set(Sending::Nothing),
            Some(Outcome::Received(receipt)) => {
                live.sending.set(Sending::Received(receipt.received));
                ASKED_AT.set(0);
                ATTEMPTS.set(0);
                ask_standing(page.clone(), live);
                hand_over(page, live);
            }
            Some(Outcome::Refused(why, form)) => {
                form::fill(&form);
                keep_draft(&page);
                live.sending.set(Sending::Refused(
                    why.unwrap_or_else(|| page.words.say("client.sending.refused").to_owned()),
                ));
            }
            Some(Outcome::Later) => {
                live.sending.set(Sending::Kept);
                let attempt = ATTEMPTS.get();
                ATTEMPTS.set(attempt + 1);
                let pause = PAUSES_MILLIS.get(attempt).copied().unwrap_or(60_000);
                page_view::after(pause, move || hand_over(page, live));
            }
        }
    });
}

/// Asks how the client's reports stand, when the page is looked at and what it shows is not fresh.
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
            && *live.reports.peek() != standing.reports
        {
            live.reports.set(standing.reports);
        }
    });
}

/// Tells the studio, once from this phone, that the page was opened. A visit by a link preview or a scanner's own
/// look does not run this, and so does not count.
fn tell_opened(page: Page) {
    if store::read::<bool>(&page.path, Kept::Opened) == Some(true) {
        return;
    }
    wasm_bindgen_futures::spawn_local(async move {
        let answer = net::ask("POST", &format!("{}/opened", page.path), None).await;
        if answer.is_some_and(|answer| answer.status == 204) {
            store::keep(&page.path, Kept::Opened, &true);
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
