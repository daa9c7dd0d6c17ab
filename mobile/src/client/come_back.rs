//! What else there is to know about the time to come back, and when each treatment is due by itself.

use dioxus::prelude::*;
use shared_types::{page::client::ComeBack, words::Words};

pub(super) fn more(back: &ComeBack, words: &Words) -> Element {
    rsx! {
        for (at, sentence) in back.more.iter().enumerate() {
            p { key: "{at}", "{sentence}" }
        }
        if !back.windows.is_empty() {
            details { class: "due",
                summary { {words.say("client.come_back.each").to_owned()} }
                for window in &back.windows {
                    h4 { key: "{window.what}", "{window.what}" }
                    p {
                        {words.fill("client.come_back.days", &[("from", &window.from), ("best", &window.best), ("until", &window.until)])}
                        small { " {window.why}" }
                    }
                }
            }
        }
    }
}
