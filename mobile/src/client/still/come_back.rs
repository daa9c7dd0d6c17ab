//! What else there is to know about the time to come back, and when each treatment is due by itself.

use dioxus::prelude::*;
use shared_types::{page::client::ComeBack, words::Words};

pub(super) fn more(words: &Words, back: &ComeBack) -> Element {
    rsx! {
        for sentence in &back.more {
            p { key: "{sentence}", "{sentence}" }
        }
        if !back.windows.is_empty() {
            details { class: "due",
                summary { {words.say("client.come_back.each").to_owned()} }
                for (what, due) in &back.windows {
                    p { key: "{what}",
                        b { "{what}" }
                        " {due}"
                    }
                }
            }
        }
    }
}
