//! The studio's own cautions: all of them, one to change, one to add, and what the labels of products say.

mod forms;
mod labels;

use dioxus::prelude::*;
use shared_types::page::own_advice::{CautionRow, CautionsScreen, SourceLine};

use super::use_page;
pub(super) use forms::{AddCautionForm, ChangeCautionForm};
pub(super) use labels::LabelsForm;

/// By treatment, folded away, the studio's own first.
#[component]
pub(super) fn CautionsList(screen: CautionsScreen) -> Element {
    let page = use_page();
    let words = &page.words;
    let text = |key: &str| words.say(&format!("artist.cautions.{key}")).to_owned();
    rsx! {
        div { class: "practice",
            h1 { {text("title")} }
            p { {text("intro")} }
            p {
                {text("by_labels")}
                " "
                a { href: "/studio/labels", {text("labels")} }
            }
            if !screen.changed.is_empty() {
                p { class: "hint", "{screen.changed}" }
            }
            section {
                h2 { {text("own")} }
                p { class: "hint", {text("own_hint")} }
                if screen.added.is_empty() {
                    p { class: "hint", {text("own_none")} }
                } else {
                    {rows(&screen.added)}
                }
                a { class: "button quiet", href: "/studio/cautions/new", {text("add")} }
            }
            section {
                for one in &screen.treatments {
                    details { class: "own", key: "{one.term}", open: !one.own.is_empty(),
                        summary {
                            span { "{one.name}" }
                            if !one.own.is_empty() {
                                small { "{one.own}" }
                            }
                        }
                        {rows(&one.rows)}
                    }
                }
            }
            p { class: "onward", a { href: "/studio/practice", {text("back")} } }
        }
    }
}

fn rows(rows: &[CautionRow]) -> Element {
    rsx! {
        ul { class: "lines",
            for row in rows {
                li { key: "{row.address}", class: if row.is_own { "unanswered" },
                    a { href: "{row.address}",
                        strong { "{row.what}" }
                        span { class: "when", "{row.hours}" }
                        span { class: "note", "{row.basis}" }
                    }
                }
            }
        }
    }
}

/// Who says so, with a link where there is a page.
pub(super) fn sources(lines: &[SourceLine]) -> Element {
    rsx! {
        ul { class: "sources",
            for (at, line) in lines.iter().enumerate() {
                li { key: "{at}",
                    if line.address.is_empty() {
                        "{line.title}"
                    } else {
                        a { href: "{line.address}", rel: "noreferrer", "{line.title}" }
                    }
                }
            }
        }
    }
}
