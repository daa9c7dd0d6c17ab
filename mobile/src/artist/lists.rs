//! Reports as lines: on the first screen and in the inbox.

use dioxus::prelude::*;
use shared_types::page::reports::{ReportLine, Reports};

use super::use_page;

#[component]
pub(super) fn ReportsScreen(screen: Reports) -> Element {
    let page = use_page();
    let words = &page.words;
    rsx! {
        div { class: "title-line",
            h1 { {words.say("artist.reports.title").to_owned()} }
            p { a { href: "/studio/reports/replies", {words.say("artist.desk.link").to_owned()} } }
        }
        section {
            h2 { {words.say("artist.reports.open").to_owned()} }
            if screen.waiting.is_empty() {
                p { class: "hint", {words.say("artist.today.none_waiting").to_owned()} }
            } else {
                ReportLines { lines: screen.waiting.clone() }
            }
        }
        if !screen.answered.is_empty() {
            section {
                h2 { {words.say("artist.reports.answered").to_owned()} }
                ReportLines { lines: screen.answered.clone() }
            }
        }
        if !screen.settled.is_empty() {
            section {
                h2 { {words.say("artist.reports.settled").to_owned()} }
                ReportLines { lines: screen.settled.clone() }
            }
        }
        p { class: "onward", a { href: "/studio/batches", {words.say("artist.batches.link").to_owned()} } }
    }
}

/// The state of a report in one word; empty where it says how long it waits.
fn state(line: &ReportLine) -> &'static str {
    match (line.settled, line.answered, line.unseen) {
        (true, _, _) => "artist.reports.is_settled",
        (false, true, _) => "artist.reports.is_answered",
        (false, false, true) => "artist.reports.is_new",
        (false, false, false) => "artist.reports.is_seen",
    }
}

/// The class that shows whether somebody waits.
fn waiting(line: &ReportLine) -> &'static str {
    match (line.overdue, line.waits.is_empty()) {
        (true, _) => "overdue",
        (false, false) => "unanswered",
        (false, true) => "",
    }
}

#[component]
pub(super) fn ReportLines(lines: Vec<ReportLine>) -> Element {
    let page = use_page();
    let words = &page.words;
    rsx! {
        ul { class: "lines reports",
            for line in &lines {
                li { key: "{line.id}", class: "level-{line.level} {waiting(line)}",
                    a { href: "/studio/reports/{line.id}",
                        span { class: "level", {words.say(&format!("artist.level.{}", line.level)).to_owned()} }
                        span { class: "state",
                            {words.say(state(line)).to_owned()}
                            if !line.waits.is_empty() {
                                " · {line.waits}"
                            }
                        }
                        strong { "{line.first_name}" }
                        span { class: "when", "{line.received.text}" }
                        span { class: "gist", "{line.gist}" }
                        span { class: "note",
                            {words.fill(
                                "artist.reports.after",
                                &[("done", &words.list(&line.done)), ("when", &line.visit_finished.text)],
                            )}
                            if !line.trend.is_empty() {
                                span { class: "trend", " · {line.trend}" }
                            }
                        }
                    }
                }
            }
        }
    }
}
