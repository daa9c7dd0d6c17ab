//! Units that need a browser around them. `cargo xtask test` carries them into headless Chromium.
#![cfg(target_arch = "wasm32")]

mod support;

use dioxus::prelude::*;
use mobile::{
    client::{errand::Errand, still},
    phone::{
        form, json, net,
        outbox::{self, Outcome},
        reading,
        store::{self, Kept},
    },
};
use shared_types::{
    page::{client::ClientPage, form::Filled},
    reaction::Report,
    words::Words,
};
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

fn put(path: &str, report: &Report) -> bool {
    let body = json::write(report).expect("JSON");
    outbox::put(path, Errand::Report, body, form())
}

/// Puts the real page, as the server would draw it, into the document: with what the form offers, which is drawn there.
fn show_page() {
    let mut page = support::client_page(30);
    let drawn = |part: fn(&Words, &Filled) -> Element| {
        dioxus_ssr::render_element(part(&Words::none(), &Filled::default()))
    };
    page.still.signs = drawn(still::signs);
    page.still.since = drawn(still::since);
    page.still.trend = drawn(still::trend);
    let mut dom =
        VirtualDom::new(mobile::client::ClientApp).with_root_context(std::rc::Rc::new(page));
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
    form::fill(Errand::Report, &form());
    assert_eq!(
        form::read(Errand::Report).expect("the form is there"),
        form()
    );
}

#[wasm_bindgen_test]
fn a_cleared_form_is_an_empty_report() {
    show_page();
    form::fill(Errand::Report, &form());
    form::clear(Errand::Report);
    let read = form::read(Errand::Report).expect("the form is there");
    let report = Report::from_form(&read).expect("terms of ours");
    assert!(report.signs.is_empty() && report.since.is_none() && report.words.is_empty());
    assert!(!report.faults().is_empty());
}

#[wasm_bindgen_test]
fn the_same_report_waits_once_and_two_wait_in_order() {
    let path = "/MY/WAITING";
    store::drop(path, Kept::Unsent);
    assert!(put(path, &report()));
    assert!(put(path, &report()));
    assert!(put(
        path,
        &Report {
            words: "Another thing.".to_owned(),
            ..report()
        }
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
    assert!(put(path, &report()));
    assert!(matches!(
        outbox::hand_over(path).await,
        Some((Errand::Report, Outcome::Later))
    ));
    assert_eq!(outbox::waiting(path).len(), 1);
    assert!(net::ask("GET", path, None).await.is_none());
}

/// Nobody who worries waits behind a wish; and a report that an older build kept is still a report.
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

    let older = r#"[{"id":"67e55044-10b1-426f-9247-bb680e5fe0c8","body":"{}","form":{"values":[],"faults":[]}}]"#;
    let storage = web_sys::window().expect("a window").local_storage();
    let storage = storage.expect("storage").expect("storage");
    let key = format!("betweentimes:{path}:unsent");
    storage.set_item(&key, older).expect("room");
    let waiting = outbox::waiting(path);
    assert_eq!(waiting.len(), 1);
    assert_eq!(waiting[0].errand(), Errand::Report);
}

/// A form that came back as its sender typed it, also the days and times; and one form leaves the other alone.
#[wasm_bindgen_test]
fn a_wish_is_read_from_its_own_form() {
    show_page();
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
fn what_cannot_be_read_any_more_is_as_if_nothing_were_kept() {
    let path = "/MY/OLD";
    store::keep(path, Kept::Draft, &"not a report");
    assert_eq!(store::read::<Filled>(path, Kept::Draft), None);
}
