//! The case of a report on a sheet of A4, for a doctor, an insurer or a supplier. Only the server draws it.

use dioxus::prelude::*;
use shared_types::words::Words;

use super::size;

/// What is printed, in words throughout.
#[derive(Clone, Debug)]
pub struct CasePrinted<'a> {
    /// The keys below `case.` and `print.`.
    pub words: &'a Words,
    pub studio: &'a str,
    /// Whom it is about: a name, or a code.
    pub about: &'a str,
    /// "Brow wax, finished Thursday 14:30."
    pub done: &'a str,
    /// What happened, in order: when and what.
    pub timeline: &'a [(String, String)],
    pub parts: &'a [CasePart],
    pub photos: &'a [(String, String)],
    /// How the studio can be reached, and from which record this is.
    pub contact: &'a str,
    pub kept: &'a str,
    /// The addresses from where it was asked for, of the same as data, and of the other kind of reader with its words;
    /// empty where there is none.
    pub back: &'a str,
    pub data: &'a str,
    pub other: Option<(&'a str, &'a str)>,
    /// What to do before it is handed to a supplier; empty where it cannot be.
    pub read_through: &'a str,
}

/// One part: a heading, and lines with a name or without.
#[derive(Clone, Debug, Default)]
pub struct CasePart {
    pub title: String,
    pub lines: Vec<(String, String)>,
}

pub fn case(case: &CasePrinted<'_>) -> Element {
    let words = case.words;
    let say = |key: &str| words.say(&format!("case.{key}")).to_owned();
    rsx! {
        footer { class: "screen-only",
            {words.say("print.how").to_owned()}
            " "
            a { href: "{case.back}", {words.say("print.back").to_owned()} }
            if !case.read_through.is_empty() {
                p { "{case.read_through}" }
            }
            if let Some((address, text)) = case.other {
                a { href: "{address}", "{text}" }
            }
            a { href: "{case.data}", {say("data")} }
        }
        main { class: size::case(case),
            header {
                div {
                    p { class: "studio", "{case.studio}" }
                    h1 { {words.fill("case.about", &[("name", case.about)])} }
                    p { class: "done", "{case.done}" }
                }
            }
            aside {
                p { {say("facts_only")} }
            }
            div { class: "columns case",
                section {
                    h2 { {say("timeline")} }
                    dl {
                        for (at, (when, what)) in case.timeline.iter().enumerate() {
                            div { key: "{at}",
                                dt { "{when}" }
                                dd { "{what}" }
                            }
                        }
                    }
                }
                for part in case.parts {
                    section { key: "{part.title}",
                        h2 { "{part.title}" }
                        for (at, (name, text)) in part.lines.iter().enumerate() {
                            p { key: "{at}",
                                if !name.is_empty() {
                                    b { "{name}" }
                                    " "
                                }
                                "{text}"
                            }
                        }
                    }
                }
            }
            if !case.photos.is_empty() {
                section { class: "pictures",
                    for (address, caption) in case.photos {
                        figure { key: "{address}",
                            img { src: "{address}", alt: "{caption}" }
                            figcaption { "{caption}" }
                        }
                    }
                }
            }
            footer {
                p { "{case.contact}" }
                p { class: "kept", "{case.kept}" }
            }
        }
    }
}
