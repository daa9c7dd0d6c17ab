//! What the client told, what to do now, and what the studio noted.

use dioxus::prelude::*;
use shared_types::{page::patch_tests::PatchTestPage, patch_test::Noticed};

use super::say;

pub(super) fn told(page: &PatchTestPage) -> Element {
    let words = &page.words;
    if page.told.is_empty() && page.read.is_empty() {
        return rsx! {};
    }
    let next = match page.told.first().map(|card| card.noticed) {
        Some(Noticed::Nothing) => "told.nothing",
        Some(Noticed::NotSure) => "told.not_sure",
        // What to do stands above.
        Some(Noticed::Something) | None => "",
    };
    let received = |when: &str| {
        let values = [("studio", page.studio.name.as_str()), ("when", when)];
        words.fill("patch_test.told.received", &values)
    };
    rsx! {
        section { id: "told", aria_labelledby: "told-title",
            h2 { id: "told-title", {say(page, "told.title")} }
            if !next.is_empty() {
                p { class: "lead", {say(page, next)} }
            }
            for (at, card) in page.told.iter().enumerate() {
                article { class: "report", key: "{at}",
                    p { class: "received", {received(&card.received.text)} }
                    blockquote {
                        p { "{card.said}" }
                        if !card.words.is_empty() {
                            p { class: "text", "{card.words}" }
                        }
                    }
                }
            }
            for (at, sentence) in page.read.iter().enumerate() {
                p { key: "{at}", "{sentence}" }
            }
        }
    }
}
