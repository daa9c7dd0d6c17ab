//! Whose advice the cautions of a visit are: for the artist, with the sources and the studio's own reasons.

use dioxus::prelude::*;
use shared_types::page::own_advice::WhoseLine;

use super::{own_advice::sources, use_page};

/// Folded away, below what the client is told.
#[component]
pub(super) fn WhosePart(lines: Vec<WhoseLine>) -> Element {
    let page = use_page();
    let words = &page.words;
    rsx! {
        if !lines.is_empty() {
            details { class: "fold whose",
                summary { {words.say("artist.whose.title").to_owned()} }
                for (at, line) in lines.iter().enumerate() {
                    div { key: "{at}",
                        h3 { "{line.what}" }
                        p { "{line.said}" }
                        if !line.reason.is_empty() {
                            p { {words.fill("artist.cautions.reason_line", &[("reason", &line.reason)])} }
                        }
                        {sources(&line.sources)}
                    }
                }
            }
        }
    }
}
