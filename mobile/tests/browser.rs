//! Units that need a browser around them. `cargo xtask test` carries them into headless Chromium.
#![cfg(target_arch = "wasm32")]

mod support;

use dioxus::prelude::*;
use mobile::phone::{
    form, net,
    outbox::{self, Outcome},
    store::{self, Kept},
};
use shared_types::reaction::{Report, Sign, Since, Trend};
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

wasm_bindgen_test_configure!(run_in_browser);

fn report() -> Report {
    Report {
        signs: vec![Sign::Redness, Sign::Itching],
        since: Some(Since::NextDay),
        trend: Some(Trend::Worse),
        words: "It itches, and “burns” a little.\nSince breakfast.".to_owned(),
        reach: "mara@example.org".to_owned(),
        consent: Some("2026-11".to_owned()),
    }
}

/// Puts the real page, as the server would draw it, into the document.
fn show_page() {
    let mut dom =
        VirtualDom::new(mobile::client::ClientApp).with_root_context(support::client_page(30));
    dom.rebuild_in_place();
    let document = web_sys::window()
        .expect("a window")
        .document()
        .expect("a document");
    let main = document.get_element_by_id("page").unwrap_or_else(|| {
        let main = document.create_element("div").expect("an element");
        main.set_id("page");
        document
            .body()
            .expect("a body")
            .append_child(&main)
            .expect("room for it");
        main
    });
    main.set_inner_html(&dioxus_ssr::render(&dom));
}

#[wasm_bindgen_test]
fn a_draft_put_back_reads_the_same_but_for_the_consent() {
    show_page();
    form::clear();
    form::fill(&report());
    let read = form::read().expect("the form is there");
    assert_eq!(
        read,
        Report {
            consent: None,
            ..report()
        }
    );
}

#[wasm_bindgen_test]
fn an_empty_form_is_an_empty_report() {
    show_page();
    let read = form::read().expect("the form is there");
    assert!(read.signs.is_empty() && read.since.is_none() && read.consent.is_none());
    assert!(!read.faults().is_empty());
}

#[wasm_bindgen_test]
fn the_same_report_waits_once_and_two_wait_in_order() {
    let path = "/MY/WAITING";
    store::drop(path, Kept::Unsent);
    assert!(outbox::put(path, report()));
    assert!(outbox::put(path, report()));
    assert!(outbox::put(
        path,
        Report {
            words: "Another thing.".to_owned(),
            ..report()
        }
    ));
    let waiting = outbox::waiting(path);
    assert_eq!(waiting.len(), 2);
    assert_eq!(waiting[0].report, report());
    assert_ne!(waiting[0].id, waiting[1].id);
    assert!(
        outbox::waiting("/MY/ANOTHER").is_empty(),
        "another page's reports are its own"
    );
}

#[wasm_bindgen_test]
async fn without_an_answer_a_report_stays() {
    // Port 9 (discard) is closed here: nothing answers.
    let path = "http://127.0.0.1:9/MY/NOBODY";
    store::drop(path, Kept::Unsent);
    assert!(outbox::put(path, report()));
    assert!(matches!(
        outbox::hand_over(path).await,
        Some(Outcome::Later)
    ));
    assert_eq!(outbox::waiting(path).len(), 1);
    assert!(net::ask("GET", path, None).await.is_none());
}

#[wasm_bindgen_test]
fn what_cannot_be_read_any_more_is_as_if_nothing_were_kept() {
    let path = "/MY/OLD";
    store::keep(path, Kept::Draft, &"not a report");
    assert_eq!(store::read::<Report>(path, Kept::Draft), None);
}
