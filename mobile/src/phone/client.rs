//! The client's page alive: time moves, and where reports and wishes stand is asked for.

use std::{cell::Cell, rc::Rc};

use dioxus::prelude::*;
use shared_types::{
    page::client::SentCard,
    reaction::{FollowUp, How},
    wire::Standing,
};

use super::{
    clock, json, net, outbox, page_view, photos,
    post::{self, Sender},
    store::{self, Kept},
};
use crate::client::{Page, errand::Errand, life::Live};

const TICK_MILLIS: i32 = 15_000;
/// What the page shows of reports and wishes is asked for again when it is older than this.
const FRESH_SECONDS: i64 = 30;

thread_local! {
    static ASKED_AT: Cell<i64> = const { Cell::new(0) };
}

/// Starts everything that moves. Called once, after the page is on screen.
pub fn begin(page: Page, mut live: Live) {
    keep_page_for_offline();
    page_view::mark_alive();
    live.now.set(clock::now());
    ASKED_AT.set(page.now.timestamp());

    let sender = Sender {
        desk: page.clone(),
        live,
        received: {
            let page = page.clone();
            Rc::new(move |_| {
                ASKED_AT.set(0);
                ask_standing(page.clone(), live);
                photos::hand_over();
            })
        },
        emptied: Rc::new(|_| {}),
    };
    post::begin(&sender, &[Errand::Wish]);
    photos::begin(&page.path);

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
        let (page, sender) = (page.clone(), sender.clone());
        let mut live = live;
        move || {
            live.now.set(clock::now());
            post::hand_over(sender.clone());
            photos::hand_over();
            ask_standing(page.clone(), live);
        }
    });
    ask_standing(page.clone(), live);
    tell_opened(page);
}

/// Takes the answer to how it goes. False when it cannot be kept and the plain form should be posted.
pub fn follow_up(page: &Page, mut live: Live, card: &SentCard, how: How) -> bool {
    let place = format!("{}/{}", Errand::FollowUp.place(), card.ask);
    let Some(body) = json::write(&FollowUp { how }) else {
        return false;
    };
    if !outbox::put_at(&page.path, card.id, place, body) {
        return false;
    }
    // Asked and answered, whether or not the studio has it yet.
    for one in live
        .reports
        .write()
        .iter_mut()
        .filter(|one| one.id == card.id)
    {
        one.ask = 0;
    }
    post::go(page.clone(), live);
    true
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
pub fn keep_page_for_offline() {
    if let Some(window) = web_sys::window() {
        let container = window.navigator().service_worker();
        // Undefined where the page did not come over a safe connection; then there is no keeping.
        if !container.is_undefined() {
            let _ = container.register("/MY/worker.js");
        }
    }
}
