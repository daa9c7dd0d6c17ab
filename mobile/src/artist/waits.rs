//! What reports and wishes have in common on the artist's screens: the answers that were given, the text of a new one,
//! and that it is settled.

use dioxus::prelude::*;
use shared_types::page::{
    client::{AnswerCard, Moment},
    form::Filled,
};

use super::{Csrf, use_page};
use crate::parts::{fault_text, text_area_text};

/// The answers, oldest first.
pub(super) fn answers(answers: &[AnswerCard], words: &shared_types::words::Words) -> Element {
    rsx! {
        for (at, answer) in answers.iter().enumerate() {
            div { class: "answer", key: "{at}",
                p { class: "by", {words.fill("artist.report.answered", &[("by", &answer.by), ("when", &answer.at.text)])} }
                p { class: "note-text", "{answer.text}" }
            }
        }
    }
}

/// A longer text with its label, its hint and its fault.
#[component]
pub(super) fn TextArea(
    name: String,
    label: String,
    #[props(default)] hint: String,
    #[props(default = 3)] rows: u32,
    #[props(default)] required: bool,
    longest: usize,
    form: Filled,
) -> Element {
    let fault = form.fault(&name).map(str::to_owned);
    let told_by = match (hint.is_empty(), fault.is_some()) {
        (true, false) => None,
        (false, false) => Some(format!("hint-{name}")),
        (true, true) => Some(format!("fault-{name}")),
        (false, true) => Some(format!("hint-{name} fault-{name}")),
    };
    rsx! {
        div { class: "field",
            label { r#for: "field-{name}", "{label}" }
            if !hint.is_empty() {
                p { class: "hint", id: "hint-{name}", "{hint}" }
            }
            {fault_text(&name, fault.clone())}
            textarea {
                id: "field-{name}",
                name: "{name}",
                rows: "{rows}",
                required,
                maxlength: "{longest}",
                aria_describedby: told_by,
                aria_invalid: fault.map(|_| "true"),
                dangerous_inner_html: text_area_text(form.value(&name)),
            }
        }
    }
}

/// Settles it, or opens it again. `address` is its own.
#[component]
pub(super) fn SettlePart(address: String, settled: Option<Moment>) -> Element {
    let page = use_page();
    let words = &page.words;
    rsx! {
        match &settled {
            Some(at) => rsx! {
                p { class: "hint", {words.fill("artist.report.settled", &[("when", &at.text)])} }
                form { method: "post", action: "{address}/reopen",
                    Csrf {}
                    button { r#type: "submit", class: "quiet", {words.say("artist.report.reopen").to_owned()} }
                }
            },
            None => rsx! {
                form { method: "post", action: "{address}/settle",
                    Csrf {}
                    button { r#type: "submit", class: "quiet", {words.say("artist.report.settle").to_owned()} }
                }
            },
        }
    }
}
