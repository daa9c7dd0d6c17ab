//! How it settles: care, what is ordinary and until when, and what is not.

use dioxus::prelude::*;
use shared_types::page::client::ClientPage;

pub(super) fn lists(page: &ClientPage) -> Element {
    rsx! {
        section { id: "after", aria_labelledby: "after-title",
            h2 { id: "after-title", {page.words.say("client.after.title").to_owned()} }
            for list in &page.after {
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
