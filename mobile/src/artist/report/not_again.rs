//! Products that are not to be used again for a client.

use dioxus::prelude::*;
use shared_types::{
    page::reports::{NotAgainLine, NotAgainPart},
    visit::limits,
    words::Words,
};

use super::super::{Csrf, TextArea, use_page};
use crate::parts::fault_text;

/// What stands, as a warning; nothing where nothing does.
pub(in super::super) fn not_again_list(lines: &[NotAgainLine], words: &Words) -> Element {
    rsx! {
        if !lines.is_empty() {
            div { class: "not-again",
                p { class: "list-title", {words.say("artist.not_again.stands").to_owned()} }
                ul {
                    for line in lines {
                        li { key: "{line.id}",
                            a { href: "/studio/reports/{line.report}", "{line.what}" }
                        }
                    }
                }
            }
        }
    }
}

/// What stands, with a way to lift it; and one more of the visit's products.
#[component]
pub(super) fn NotAgainForm(address: String, name: String, part: NotAgainPart) -> Element {
    let page = use_page();
    let words = &page.words;
    let text = |key: &str| words.say(&format!("artist.not_again.{key}")).to_owned();
    let fault = part.form.fault("product").map(str::to_owned);
    rsx! {
        section {
            h2 { {words.fill("artist.not_again.title", &[("name", &name)])} }
            for line in &part.lines {
                div { key: "{line.id}", class: "not-again",
                    p { strong { "{line.what}" } }
                    p { class: "hint", "{line.since}" }
                    if !line.words.is_empty() {
                        p { class: "note-text", "{line.words}" }
                    }
                    form { method: "post", action: "{address}/lift",
                        Csrf {}
                        input { r#type: "hidden", name: "not_again", value: "{line.id}" }
                        button { r#type: "submit", class: "quiet", {words.fill("artist.not_again.lift", &[("product", &line.what)])} }
                    }
                }
            }
            if !part.lifted.is_empty() {
                details {
                    summary { {text("lifted_title")} }
                    for (at, line) in part.lifted.iter().enumerate() {
                        p { key: "{at}", class: "hint", "{line}" }
                    }
                }
            }
            if part.products.is_empty() {
                p { class: "hint", {text("no_products")} }
            } else {
                details { class: "fold", open: part.form.is_faulty(),
                    summary { {text("add")} }
                    p { class: "hint", {text("hint")} }
                    form { method: "post", action: "{address}/not-again",
                        Csrf {}
                        fieldset { aria_describedby: fault.as_ref().map(|_| "fault-product"),
                            legend { {text("which")} }
                            {fault_text("product", fault.clone())}
                            for (at, product) in part.products.iter().enumerate() {
                                label { class: "choice", key: "{at}",
                                    input { r#type: "radio", name: "product", value: "{at}", "checked": part.form.has("product", &at.to_string()) }
                                    span {
                                        "{product.name}"
                                        if !product.batch.is_empty() {
                                            small { {words.fill("artist.visit.batch", &[("batch", &product.batch)])} }
                                        }
                                    }
                                }
                            }
                        }
                        label { class: "choice",
                            input { r#type: "checkbox", name: "whole", value: "yes", "checked": part.form.has("whole", "yes") }
                            span { {text("whole_product")} }
                        }
                        TextArea { name: "words", label: text("words"), rows: 2, longest: limits::NOTE, form: part.form.clone() }
                        button { r#type: "submit", {text("button")} }
                    }
                }
            }
        }
    }
}
