//! The first screen: what waits, and the latest visits.

use dioxus::prelude::*;
use shared_types::page::artist::{Today, VisitLine};

use super::{lists::ReportLines, patch_tests::PatchTestLines, use_page, wish::WishLines};

#[component]
pub(super) fn TodayScreen(screen: Today) -> Element {
    let page = use_page();
    let words = &page.words;
    rsx! {
        div { class: "title-line",
            h1 { {words.say("artist.today.title").to_owned()} }
            a { class: "button", href: "/studio/visits/new", {words.say("artist.ways.record").to_owned()} }
        }
        div { class: "two",
            div {
                section {
                    h2 { {words.say("artist.today.waiting").to_owned()} }
                    if screen.reports.is_empty() {
                        p { class: "hint", {words.say("artist.today.none_waiting").to_owned()} }
                    } else {
                        ReportLines { lines: screen.reports.clone() }
                    }
                }
                if !screen.wishes.is_empty() {
                    section {
                        h2 { {words.say("artist.wishes.title").to_owned()} }
                        WishLines { lines: screen.wishes.clone() }
                    }
                }
                section {
                    h2 { {words.say("artist.patch_tests.title").to_owned()} }
                    if screen.patch_tests.is_empty() {
                        p { class: "hint", {words.say("artist.patch_tests.none").to_owned()} }
                    } else {
                        PatchTestLines { lines: screen.patch_tests.clone() }
                    }
                    div { class: "actions",
                        a { class: "button quiet", href: "/studio/patch-tests/new", {words.say("artist.patch_tests.new").to_owned()} }
                        a { class: "button quiet", href: "/studio/patch-tests", {words.say("artist.patch_tests.all").to_owned()} }
                    }
                }
            }
            section {
                h2 { {words.say("artist.today.visits").to_owned()} }
                if screen.visits.is_empty() {
                    p { class: "hint", {words.say("artist.today.no_visits").to_owned()} }
                }
                ul { class: "lines",
                    for visit in &screen.visits {
                        Line { key: "{visit.id}", visit: visit.clone() }
                    }
                }
            }
        }
    }
}

#[component]
fn Line(visit: VisitLine) -> Element {
    let page = use_page();
    let words = &page.words;
    let done = words.list(&visit.done);
    rsx! {
        li {
            a { href: "/studio/visits/{visit.id}",
                strong { "{visit.first_name}" }
                span { class: "when", "{visit.finished.text}" }
                span { class: "gist", "{done}" }
                span { class: "note",
                    match &visit.opened {
                        Some(at) => words.fill("artist.link.opened", &[("when", &at.text)]),
                        None => words.say("artist.link.unopened").to_owned(),
                    }
                }
            }
        }
    }
}
