//! How it settles: care, what is ordinary and until when, and what is not.

use dioxus::prelude::*;
use shared_types::{page::client::AfterList, words::Words};

pub fn after(words: &Words, lists: &[AfterList]) -> Element {
    rsx! {
        section { id: "after", aria_labelledby: "after-title",
            h2 { id: "after-title", {words.say("client.after.title").to_owned()} }
            for list in lists {
                details { key: "{list.title}",
                    summary { "{list.title}" }
                    ul {
                        for line in &list.lines {
                            li { "{line}" }
                        }
                    }
                }
            }
        }
    }
}
