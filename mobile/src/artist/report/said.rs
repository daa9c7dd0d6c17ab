//! What was said and told.

use dioxus::prelude::*;
use shared_types::page::reports::{FollowedLine, PhotoLine, ReportView, Said, ToldView};

use super::super::{reach::reach, use_page};

/// How soon the client was told to act, by which answers, and how long it has waited.
#[component]
pub(super) fn RaisedPart(report: ReportView) -> Element {
    let page = use_page();
    let words = &page.words;
    let said = &report.said;
    rsx! {
        section { class: "raised level-{report.level}",
            p { class: "level", {words.say(&format!("artist.level.{}", report.level)).to_owned()} }
            if !said.raised.is_empty() {
                ul { class: "signs",
                    for (at, sign) in said.raised.iter().enumerate() {
                        li { key: "{at}", "{sign}" }
                    }
                }
            }
            p { class: "course", {said.course.join(" · ")} }
            if !report.waits.is_empty() {
                p { class: if report.overdue { "overdue" } else { "waits" }, "{report.waits}" }
            }
            if !report.seen.is_empty() {
                p { class: "hint", "{report.seen}" }
            }
        }
    }
}

/// Everything else that was answered; what was answered with no is folded away.
#[component]
pub(super) fn SaidPart(said: Said) -> Element {
    let page = use_page();
    let words = &page.words;
    let text = |key: &str| words.say(&format!("artist.work.{key}")).to_owned();
    let or_not_said = |text: &str| {
        if text.is_empty() {
            words.say("artist.report.not_said").to_owned()
        } else {
            text.to_owned()
        }
    };
    let places: Vec<String> = said.places.iter().map(|(_, name)| name.clone()).collect();
    rsx! {
        section { class: "facts",
            dl {
                dt { {words.say("artist.report.words").to_owned()} }
                dd { class: "note-text own-words", {or_not_said(&said.words)} }
                if !said.present.is_empty() {
                    dt { {text("present")} }
                    dd { {said.present.join(" · ")} }
                }
                dt { {text("where")} }
                dd { {or_not_said(&places.join(" · "))} }
                if !said.not_sure.is_empty() {
                    dt { {text("not_sure")} }
                    dd { {said.not_sure.join(" · ")} }
                }
                if !said.unanswered.is_empty() {
                    dt { {text("unanswered")} }
                    dd { {said.unanswered.join(" · ")} }
                }
                dt { {words.say("artist.report.reach").to_owned()} }
                dd {
                    if said.reach.is_empty() {
                        {words.say("artist.report.not_said").to_owned()}
                    } else {
                        {reach(&said.reach)}
                    }
                }
            }
            if !said.absent.is_empty() {
                details {
                    summary { {text("absent")} }
                    p { {said.absent.join(" · ")} }
                }
            }
        }
    }
}

/// How it went on.
#[component]
pub(super) fn FollowedPart(lines: Vec<FollowedLine>) -> Element {
    let page = use_page();
    let words = &page.words;
    rsx! {
        if !lines.is_empty() {
            section {
                h2 { {words.say("artist.work.followed_title").to_owned()} }
                ol { class: "followed",
                    for (at, line) in lines.iter().enumerate() {
                        li { key: "{at}", class: if line.worse { "worse" },
                            "{line.text}"
                            small { {words.say(&format!("artist.level.{}", line.level)).to_owned()} }
                        }
                    }
                }
            }
        }
    }
}

/// Photos side by side, each with its date.
#[component]
pub(super) fn PhotosPart(photos: Vec<PhotoLine>, to_come: String) -> Element {
    let page = use_page();
    let words = &page.words;
    rsx! {
        if !photos.is_empty() || !to_come.is_empty() {
            section {
                h2 { {words.say("artist.work.photos").to_owned()} }
                div { class: "photos",
                    for photo in &photos {
                        figure { key: "{photo.address}",
                            a { href: "{photo.address}",
                                img { src: "{photo.address}", alt: "{photo.caption}", loading: "lazy" }
                            }
                            figcaption { "{photo.caption}" }
                        }
                    }
                }
                if !to_come.is_empty() {
                    p { class: "hint", "{to_come}" }
                }
            }
        }
    }
}

/// What the client was told to do.
#[component]
pub(super) fn ToldPart(told: ToldView) -> Element {
    let page = use_page();
    let words = &page.words;
    rsx! {
        if !told.advice.is_empty() || !told.by_phone.is_empty() {
            section { class: "told",
                h2 { {words.say("artist.work.told").to_owned()} }
                {sentences(&told.advice)}
                if !told.by_phone.is_empty() {
                    h3 { {words.say("artist.work.phone_told").to_owned()} }
                    {sentences(&told.by_phone)}
                }
                p { class: "hint", "{told.basis}" }
            }
        }
    }
}

fn sentences(all: &[String]) -> Element {
    rsx! {
        ul {
            for (at, sentence) in all.iter().enumerate() {
                li { key: "{at}", "{sentence}" }
            }
        }
    }
}
