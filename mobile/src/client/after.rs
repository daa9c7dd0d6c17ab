//! How it settles: care, what is ordinary and until when, and what is not.

use dioxus::prelude::*;

use super::use_page;

#[component]
pub(super) fn AfterLists() -> Element {
    let page = use_page();
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
