//! Units that need a browser around them. `cargo xtask test` carries them into headless Chromium.
#![cfg(target_arch = "wasm32")]

mod support;

use std::rc::Rc;

use dioxus::prelude::*;
use mobile::{
    client::{ClientApp, errand::Errand, trouble::TroubleApp},
    phone::{
        form, json, net,
        outbox::{self, Outcome},
        reading,
        store::{self, Kept},
    },
};
use shared_types::{
    page::{client::ClientPage, form::Filled, trouble::TroublePage},
    reaction::Report,
};
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

wasm_bindgen_test_configure!(run_in_browser);

fn form() -> Filled {
    let mut form = Filled::default();
    for (field, value) in [
        ("report_id", "67e55044-10b1-426f-9247-bb680e5fe0c8"),
        ("breathing", "none"),
        ("itch", "7"),
        ("trend", "worse"),
        ("places", "left_lid"),
        (
            "words",
            "It itches, and “burns” a little.\nSince breakfast.",
        ),
        ("reach", "mara@example.org"),
        ("consent", "2026-12"),
    ] {
        form.put(field, value);
    }
    form
}

fn report() -> Report {
    let told = support::trouble_page().told_by(&form(), 90);
    told.expect("answers and places of ours")
}

fn put(path: &str, report: &Report) -> bool {
    let body = json::write(report).expect("JSON");
    outbox::put(path, Errand::Report, body, form())
}

/// Puts the real pages, as the server would draw them, into the document: both, so that each form is there.
fn show_pages() {
    let mut trouble = support::trouble_page();
    trouble.still = support::trouble_still(&trouble);
    let mut whole = String::new();
    let mut dom = VirtualDom::new(TroubleApp).with_root_context(Rc::new(trouble));
    dom.rebuild_in_place();
    whole += &dioxus_ssr::render(&dom);
    let page = Rc::new(support::client_page(30));
    let mut dom = VirtualDom::new(ClientApp).with_root_context(page);
    dom.rebuild_in_place();
    whole += &dioxus_ssr::render(&dom);
    let document = form::document().expect("a document");
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
    main.set_inner_html(&whole);
}

#[wasm_bindgen_test]
fn what_is_filled_in_reads_the_same() {
    show_pages();
    form::fill(Errand::Report, &form());
    assert_eq!(
        form::read(Errand::Report).expect("the form is there"),
        form()
    );
}

#[wasm_bindgen_test]
fn a_cleared_form_is_an_empty_report() {
    show_pages();
    form::fill(Errand::Report, &form());
    form::clear(Errand::Report);
    let read = form::read(Errand::Report).expect("the form is there");
    assert!(form::id(&read).is_some() && form::id(&read) != form::id(&form()));
    let told = support::trouble_page().told_by(&read, 90);
    let report = told.expect("answers of ours");
    assert!(report.places.is_empty() && report.words.is_empty());
    assert!(!report.faults().is_empty());
}

#[wasm_bindgen_test]
fn the_same_report_waits_once_and_two_wait_in_order() {
    let path = "/MY/WAITING";
    store::drop(path, Kept::Unsent);
    assert!(put(path, &report()));
    assert!(put(path, &report()));
    let another = Report {
        words: "Another thing.".to_owned(),
        ..report()
    };
    let body = json::write(&another).expect("JSON");
    assert!(outbox::put(path, Errand::Report, body, Filled::default()));
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
    assert!(put(path, &report()));
    assert!(matches!(
        outbox::hand_over(path).await,
        Some((Errand::Report, Outcome::Later))
    ));
    assert_eq!(outbox::waiting(path).len(), 1);
    assert!(net::ask("GET", path, None).await.is_none());
}

/// Nobody who worries waits behind a wish.
#[wasm_bindgen_test]
async fn a_report_goes_before_a_wish() {
    let path = "http://127.0.0.1:9/MY/BOTH";
    store::drop(path, Kept::Unsent);
    let wish = || outbox::put(path, Errand::Wish, "{}".to_owned(), Filled::default());
    assert!(wish() && wish());
    let went = outbox::hand_over(path).await;
    assert!(matches!(went, Some((Errand::Wish, Outcome::Later))));
    assert!(put(path, &report()));
    assert_eq!(outbox::waiting(path).len(), 2);
    let went = outbox::hand_over(path).await;
    assert!(matches!(went, Some((Errand::Report, Outcome::Later))));
    assert_eq!(outbox::waiting(path).len(), 2, "both stay");

    // How it goes since stands between them.
    let follow = || {
        outbox::put_at(
            path,
            uuid::Uuid::nil(),
            "follow-ups/24".to_owned(),
            "{}".to_owned(),
        )
    };
    assert!(follow() && follow());
    let waiting = outbox::waiting(path);
    let kinds: Vec<Errand> = waiting.iter().map(|unsent| unsent.errand()).collect();
    assert_eq!(kinds, [Errand::Wish, Errand::Report, Errand::FollowUp]);
    assert!(waiting.iter().all(|unsent| unsent.since > 1_700_000_000));
}

/// A form that came back as its sender typed it, also the days and times; and one form leaves the other alone.
#[wasm_bindgen_test]
fn a_wish_is_read_from_its_own_form() {
    show_pages();
    form::fill(Errand::Report, &form());
    let mut wish = Filled::default();
    for field in shared_types::wish::FIELDS {
        wish.put(
            field,
            match field {
                "date_1" => "2026-12-03",
                "time_1" => "14:30",
                "wish_words" => "After work.",
                _ => "",
            },
        );
    }
    form::fill(Errand::Wish, &wish);
    assert_eq!(form::read(Errand::Wish).expect("the form is there"), wish);
    assert_eq!(
        form::read(Errand::Report).expect("the form is there"),
        form()
    );
    let fold = web_sys::window()
        .and_then(|window| window.document())
        .and_then(|document| document.query_selector("#wish details[open]").ok()?);
    assert!(fold.is_some(), "what was filled in is shown");
}

/// What the server writes is read whole, to the last field.
#[wasm_bindgen_test]
fn the_page_is_read_as_it_was_written() {
    let mut page = support::client_page(30);
    page.form = form();
    page.form.blame("words", "Please shorten this.");
    page.still = Default::default();
    let text = json::write(&page).expect("JSON");
    assert_eq!(reading::read::<ClientPage>(&text), Some(page.clone()));
    page.due = None;
    page.figures[0].picture = None;
    let text = json::write(&page).expect("JSON");
    assert_eq!(reading::read(&text), Some(page));
    assert_eq!(reading::read::<ClientPage>("{\"build\":1}"), None);
    assert_eq!(reading::read::<ClientPage>("no JSON"), None);
}

#[wasm_bindgen_test]
fn the_rules_are_read_as_they_were_written() {
    let page = support::trouble_page();
    let text = json::write(&page).expect("JSON");
    assert_eq!(reading::read::<TroublePage>(&text), Some(page));
    assert_eq!(reading::read::<ClientPage>(&text), None);
}

#[wasm_bindgen_test]
fn what_cannot_be_read_any_more_is_as_if_nothing_were_kept() {
    let path = "/MY/OLD";
    store::keep(path, Kept::Draft, &"not a report");
    assert_eq!(store::read::<Filled>(path, Kept::Draft), None);
}
