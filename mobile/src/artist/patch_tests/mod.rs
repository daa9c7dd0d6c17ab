//! Patch tests: as lines, a new one, and one to be read.

mod begin;
mod one;

use dioxus::prelude::*;
use shared_types::page::patch_tests::{PatchTestLine, PatchTests};

use super::use_page;
pub(super) use begin::NewPatchTestScreen;
pub(super) use one::PatchTestScreen;

#[component]
pub(super) fn PatchTestsScreen(screen: PatchTests) -> Element {
    let page = use_page();
    let words = &page.words;
    let text = |key: &str| words.say(&format!("artist.patch_tests.{key}")).to_owned();
    rsx! {
        div { class: "title-line",
            h1 { {text("title")} }
            a { class: "button", href: "/studio/patch-tests/new", {text("new")} }
        }
        section {
            h2 { {text("to_read")} }
            if screen.waiting.is_empty() {
                p { class: "hint", {text("none")} }
            } else {
                PatchTestLines { lines: screen.waiting.clone() }
            }
        }
        if !screen.done.is_empty() {
            section {
                h2 { {text("done")} }
                PatchTestLines { lines: screen.done.clone() }
            }
        }
    }
}

#[component]
pub(super) fn PatchTestLines(lines: Vec<PatchTestLine>) -> Element {
    let page = use_page();
    let words = &page.words;
    rsx! {
        ul { class: "lines",
            for line in &lines {
                li { key: "{line.id}", class: if line.urgent { "unanswered" },
                    a { href: "/studio/patch-tests/{line.id}",
                        strong { "{line.first_name}" }
                        span { class: "when", {words.fill("artist.patch_test.put_on", &[("when", &line.put_on.text)])} }
                        span { class: "note", "{line.what}" }
                        span { class: "state", "{line.state}" }
                    }
                }
            }
        }
    }
}
