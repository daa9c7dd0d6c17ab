//! What the sheet and the card share.

use dioxus::prelude::*;

use super::Printed;
use crate::parts::by_end;

/// What to avoid, by the minute at which it ends.
pub(super) fn cautions(printed: &Printed<'_>) -> Element {
    let words = printed.words;
    rsx! {
        for group in by_end(printed.cautions) {
            div { class: "until", key: "{group.until.at.timestamp()}",
                p { class: "end", {words.fill("print.until", &[("when", &group.until.text)])} }
                ul {
                    for card in &group.cards {
                        li { key: "{card.id}", "{card.what}" }
                    }
                }
            }
        }
    }
}

/// The code to scan; nothing for a link that is shut.
pub(super) fn code(printed: &Printed<'_>) -> Element {
    rsx! {
        if !printed.code.is_empty() {
            div { class: "code", role: "img", aria_label: printed.words.say("print.code").to_owned(), dangerous_inner_html: printed.code.to_owned() }
        }
    }
}

/// What to do with it on a screen; not printed.
pub(super) fn how(printed: &Printed<'_>) -> Element {
    let words = printed.words;
    rsx! {
        footer { class: "screen-only",
            {words.say("print.how").to_owned()}
            " "
            a { href: "{printed.back}", {words.say("print.back").to_owned()} }
            for (tag, name) in printed.languages {
                a { key: "{tag}", href: "?language={tag}", lang: "{tag}", hreflang: "{tag}", "{name}" }
            }
        }
    }
}
