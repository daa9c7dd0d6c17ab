//! What reports and wishes have in common on the artist's screens: the answers that were given, and that it is settled.

use dioxus::prelude::*;
use shared_types::{
    page::client::{AnswerCard, Moment},
    words::Words,
};

use super::{Csrf, use_page};

/// The answers, oldest first.
pub(super) fn answers(answers: &[AnswerCard], words: &Words) -> Element {
    rsx! {
        for (at, answer) in answers.iter().enumerate() {
            div { class: "answer", key: "{at}",
                p { class: "by", {words.fill("artist.report.answered", &[("by", &answer.by), ("when", &answer.at.text)])} }
                p { class: "note-text", "{answer.text}" }
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
