//! Who to turn to, what the page is not, and who can see it.

use dioxus::prelude::*;
use shared_types::{page::client::StudioCard, words::Words};

/// `path` is the page's own.
pub fn foot(words: &Words, studio: &StudioCard, path: &str) -> Element {
    rsx! {
        {contact(words, studio)}
        p { class: "contact",
            a { href: "{path}/print", {words.say("client.foot.print").to_owned()} }
        }
    }
}

/// The same without the ways to paper.
pub fn contact(words: &Words, studio: &StudioCard) -> Element {
    rsx! {
        h2 { {words.fill("client.foot.title", &[("artist", &studio.artist), ("studio", &studio.name)])} }
        p { class: "contact",
            if !studio.phone.is_empty() {
                a { href: "tel:{studio.phone}", "{studio.phone}" }
            }
            if !studio.email.is_empty() {
                a { href: "mailto:{studio.email}", "{studio.email}" }
            }
        }
        p { {words.say("client.foot.label_first").to_owned()} }
        p { {words.say("client.foot.who_sees").to_owned()} }
    }
}
