//! Reactions by batch of a product: what is worth a look, and how little the figures say.

use dioxus::prelude::*;
use shared_types::page::batches::{BatchLine, BatchesScreen};

use super::use_page;

#[component]
pub(super) fn BatchesList(screen: BatchesScreen) -> Element {
    let page = use_page();
    let words = &page.words;
    let text = |key: &str| words.say(&format!("artist.batches.{key}")).to_owned();
    rsx! {
        div { class: "practice batches",
            h1 { {text("title")} }
            p { {text("intro")} }
            if screen.lines.is_empty() {
                p { class: "hint", {text("none")} }
            } else {
                for line in &screen.lines {
                    Batch { key: "{line.product} {line.batch}", line: line.clone() }
                }
            }
            section { class: "onward",
                h2 { {text("how")} }
                for (at, line) in screen.counted.iter().enumerate() {
                    p { class: "hint", key: "{at}", "{line}" }
                }
                p { a { href: "/studio/batches/counts.json", {text("counts")} } }
            }
            p { class: "onward", a { href: "/studio/reports", {text("back")} } }
        }
    }
}

/// One batch: what to do first, the rest folded away where nothing stands out.
#[component]
fn Batch(line: BatchLine) -> Element {
    let page = use_page();
    let words = &page.words;
    let name = words.fill(
        "artist.batches.name",
        &[("product", &line.product), ("batch", &line.batch)],
    );
    rsx! {
        details { class: if line.stands_out { "own stands-out" } else { "own" }, open: line.stands_out,
            summary {
                span { "{name}" }
                small { "{line.verdict}" }
            }
            ul {
                for (at, share) in line.shares.iter().enumerate() {
                    li { key: "{at}", "{share}" }
                }
            }
            div { class: "notes",
                for (at, said) in line.said.iter().enumerate() {
                    p { key: "{at}", "{said}" }
                }
            }
            for report in &line.serious {
                p { key: "{report}",
                    a { href: "/studio/reports/{report}", {words.say("artist.batches.read").to_owned()} }
                }
            }
        }
    }
}
