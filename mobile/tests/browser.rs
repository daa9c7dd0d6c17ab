//! Units that need a browser around them. `cargo xtask test` carries them into headless Chromium.
#![cfg(target_arch = "wasm32")]

mod support;

use dioxus::prelude::*;
use mobile::phone::{
    form, net,
    outbox::{self, Outcome},
    store::{self, Kept},
};
use shared_types::{page::form::Filled, reaction::Report};
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

wasm_bindgen_test_configure!(run_in_browser);

fn form() -> Filled {
    let mut form = Filled::default();
    for (field, value) in [
        ("signs", "redness"),
        ("signs", "itching"),
        ("since", "next_day"),
        ("trend", "worse"),
        (
            "words",
            "It itches, and “burns” a little.\nSince breakfast.",
        ),
        ("reach", "mara@example.org"),
        ("consent", "2026-11"),
    ] {
        form.put(field, value);
    }
    form
}

fn report() -> Report {
    Report::from_form(&form()).expect("terms of ours")
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
fn what_is_filled_in_reads_the_same() {
    show_page();
    form::fill(&form());
    assert_eq!(form::read().expect("the form is there"), form());
}

#[wasm_bindgen_test]
fn a_cleared_form_is_an_empty_report() {
    show_page();
    form::fill(&form());
    form::clear();
    let read = form::read().expect("the form is there");
    let report = Report::from_form(&read).expect("terms of ours");
    assert!(report.signs.is_empty() && report.since.is_none() && report.words.is_empty());
    assert!(!report.faults().is_empty());
}

#[wasm_bindgen_test]
fn the_same_report_waits_once_and_two_wait_in_order() {
    let path = "/MY/WAITING";
    store::drop(path, Kept::Unsent);
    assert!(outbox::put(path, &report(), form()));
    assert!(outbox::put(path, &report(), form()));
    assert!(outbox::put(
        path,
        &Report {
            words: "Another thing.".to_owned(),
            ..report()
        },
        form()
    ));
    let waiting = outbox::waiting(path);
    assert_eq!(waiting.len(), 2);
    assert_eq!(waiting[0].form, form());
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
    assert!(outbox::put(path, &report(), form()));
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
    assert_eq!(store::read::<Filled>(path, Kept::Draft), None);
}
