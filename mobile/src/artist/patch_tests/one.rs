//! One patch test: its QR for the client, what the client saw, and its reading.

use dioxus::prelude::*;
use shared_types::{
    page::{artist::LinkView, patch_tests::PatchTestView},
    visit::limits,
};

use super::super::{Choices, Csrf, TextField, WholeFault, use_page};
use crate::parts::{fault_text, text_area_text};

#[component]
pub(crate) fn PatchTestScreen(test: PatchTestView) -> Element {
    let page = use_page();
    let words = &page.words;
    let text = |key: &str| words.say(&format!("artist.patch_test.{key}")).to_owned();
    rsx! {
        div { class: "title-line",
            h1 { "{test.first_name}" }
            p {
                {words.say("artist.page_title.patch_test").to_owned()}
                " · "
                {words.fill("artist.patch_test.put_on", &[("when", &test.put_on.text)])}
            }
        }
        // What the client saw comes first, on a small screen too.
        if !test.told.is_empty() {
            Seen { test: test.clone() }
        }
        div { class: "two visit",
            div {
                match &test.withdrawn {
                    Some((sentence, why)) => rsx! {
                        p { class: "fault", "{sentence}" }
                        p { class: "note-text", "{why}" }
                    },
                    None => rsx! {
                        TestLink { id: test.id.to_string(), link: test.link.clone(), first_name: test.first_name.clone() }
                    },
                }
                section {
                    h2 { {text("looks")} }
                    ol {
                        for look in &test.looks {
                            li { key: "{look.hours}",
                                if look.over {
                                    {words.fill("artist.patch_test.look_over", &[("when", &look.at.text)])}
                                } else {
                                    b { "{look.at.text}" }
                                }
                            }
                        }
                    }
                }
            }
            div {
                if test.told.is_empty() {
                    Seen { test: test.clone() }
                }
                if test.withdrawn.is_none() {
                    Reading { test: test.clone() }
                }
                Record { test: test.clone() }
                if test.withdrawn.is_none() {
                    p { a { href: "/studio/visits/new?client={test.client}", {words.fill("artist.patch_test.visit", &[("name", &test.first_name)])} } }
                    Withdraw { test: test.clone() }
                }
            }
        }
    }
}

/// What the client wrote, and what it stands at.
#[component]
fn Seen(test: PatchTestView) -> Element {
    let page = use_page();
    let words = &page.words;
    let text = |key: &str| words.say(&format!("artist.patch_test.{key}")).to_owned();
    rsx! {
        section {
            h2 { {text("answers")} }
            if test.told.is_empty() {
                p { class: "hint", {text("no_answer")} }
            }
            for (at, card) in test.told.iter().enumerate() {
                div { class: "answer", key: "{at}",
                    p { class: "by", "{card.received.text}" }
                    p { b { "{card.said}" } }
                    if !card.words.is_empty() {
                        p { class: "note-text", "{card.words}" }
                    }
                }
            }
            if test.withdrawn.is_none() {
                p { b { "{test.stands}" } }
            }
        }
    }
}

/// The artist looks and notes it.
#[component]
fn Reading(test: PatchTestView) -> Element {
    let page = use_page();
    let words = &page.words;
    let text = |key: &str| words.say(&format!("artist.patch_test.{key}")).to_owned();
    let form = &test.form;
    rsx! {
        section {
            h2 { {text("read")} }
            form { method: "post", action: "/studio/patch-tests/{test.id}/read",
                Csrf {}
                WholeFault { form: form.clone() }
                input { r#type: "hidden", name: "event_id", value: "{test.event_id}" }
                Choices { kind: "radio", name: "outcome", legend: text("read_title"), options: test.outcomes.clone(), form: form.clone() }
                div { class: "field",
                    label { r#for: "field-words", {text("read_words")} }
                    {fault_text("words", form.fault("words").map(str::to_owned))}
                    textarea { id: "field-words", name: "words", rows: "2", maxlength: "{limits::NOTE}", dangerous_inner_html: text_area_text(form.value("words")) }
                }
                p { class: "hint", {text("read_hint")} }
                button { r#type: "submit", {text("read_button")} }
            }
        }
    }
}

/// What the record says of it, and what was noted so far.
#[component]
fn Record(test: PatchTestView) -> Element {
    let page = use_page();
    let words = &page.words;
    let text = |key: &str| words.say(&format!("artist.patch_test.{key}")).to_owned();
    rsx! {
        if !test.readings.is_empty() {
            section {
                h2 { {text("readings")} }
                for (at, (sentence, own)) in test.readings.iter().enumerate() {
                    div { class: "answer", key: "{at}",
                        p { class: "by", "{sentence}" }
                        if !own.is_empty() {
                            p { class: "note-text", "{own}" }
                        }
                    }
                }
                if test.withdrawn.is_none() {
                    p { class: "hint", {text("read_again")} }
                }
            }
        }
        section { class: "facts",
            h2 { {text("record")} }
            dl {
                dt { {text("treatments")} }
                dd { {words.list(&test.treatments)} }
                dt { {text("product")} }
                dd {
                    span { class: "product",
                        "{test.product}"
                        if !test.batch.is_empty() {
                            small { {words.fill("artist.visit.batch", &[("batch", &test.batch)])} }
                        }
                    }
                }
                dt { {text("place")} }
                dd { "{test.place}" }
                dt { {words.say("artist.visit.reach").to_owned()} }
                dd { if test.reach.is_empty() { {words.say("artist.visit.nothing").to_owned()} } else { "{test.reach}" } }
                dt { {text("recorded_by")} }
                dd { "{test.recorded_by}" }
                if !test.note.is_empty() {
                    dt { {words.say("artist.visit.note").to_owned()} }
                    dd { class: "note-text", "{test.note}" }
                }
            }
        }
    }
}

#[component]
fn Withdraw(test: PatchTestView) -> Element {
    let page = use_page();
    let words = &page.words;
    let text = |key: &str| words.say(&format!("artist.patch_test.{key}")).to_owned();
    rsx! {
        details { class: "fold", open: test.form.fault("why").is_some(),
            summary { {text("withdraw")} }
            p { {text("withdraw_hint")} }
            form { method: "post", action: "/studio/patch-tests/{test.id}/withdraw",
                Csrf {}
                TextField { name: "why", label: text("withdraw_why"), form: test.form.clone() }
                button { r#type: "submit", class: "quiet", {text("withdraw_button")} }
            }
        }
    }
}

/// The QR and the link. The client's page has no script, so it cannot say whether it was opened.
#[component]
fn TestLink(id: String, link: LinkView, first_name: String) -> Element {
    let page = use_page();
    let words = &page.words;
    let shut = link.url.is_empty();
    rsx! {
        section { class: "link-part",
            if shut {
                p { class: "fault",
                    match &link.revoked {
                        Some(at) => words.fill("artist.link.revoked", &[("when", &at.text)]),
                        None if link.expires.at <= page.now => words.fill("artist.link.expired", &[("when", &link.expires.text)]),
                        None => words.say("artist.link.key_lost").to_owned(),
                    }
                }
                form { method: "post", action: "/studio/patch-tests/{id}/link",
                    Csrf {}
                    button { r#type: "submit", {words.say("artist.link.make_new").to_owned()} }
                }
            } else {
                img { class: "qr", src: "/studio/patch-tests/{id}/qr.svg", alt: words.fill("artist.patch_test.qr_alt", &[("name", &first_name)]), width: "320", height: "320" }
                p { class: "opened", {words.fill("artist.link.until", &[("when", &link.expires.text)])} }
                div { class: "field",
                    label { r#for: "link", {words.say("artist.link.label").to_owned()} }
                    input { id: "link", readonly: true, value: "{link.url}" }
                }
                details {
                    summary { {words.say("artist.link.close").to_owned()} }
                    p { {words.say("artist.patch_test.close_hint").to_owned()} }
                    form { method: "post", action: "/studio/patch-tests/{id}/revoke",
                        Csrf {}
                        button { r#type: "submit", class: "quiet", {words.say("artist.link.close_button").to_owned()} }
                    }
                }
            }
        }
    }
}
