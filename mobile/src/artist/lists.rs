//! Reports as lines: on the first screen and in the inbox.

use dioxus::prelude::*;
use shared_types::page::artist::{ReportLine, Reports};

use super::use_page;

#[component]
pub(super) fn ReportsScreen(screen: Reports) -> Element {
    let page = use_page();
    let words = &page.words;
    rsx! {
        h1 { {words.say("artist.reports.title").to_owned()} }
        section {
            h2 { {words.say("artist.reports.open").to_owned()} }
            if screen.waiting.is_empty() {
                p { class: "hint", {words.say("artist.today.none_waiting").to_owned()} }
            } else {
                ReportLines { lines: screen.waiting.clone() }
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

#[component]
pub(super) fn ReportLines(lines: Vec<ReportLine>) -> Element {
    let page = use_page();
    let words = &page.words;
    rsx! {
        ul { class: "lines",
            for line in &lines {
                li { key: "{line.id}", class: if !line.settled && !line.answered { "unanswered" },
                    a { href: "/studio/reports/{line.id}",
                        strong { "{line.first_name}" }
                        span { class: "when", "{line.received.text}" }
                        span { class: "gist", "{line.gist}" }
                        span { class: "note",
                            {words.fill(
                                "artist.reports.after",
                                &[("done", &words.list(&line.done)), ("when", &line.visit_finished.text)],
                            )}
                        }
                        span { class: "state",
                            if !line.trend.is_empty() {
                                "{line.trend} · "
                            }
                            {words.say(match (line.settled, line.answered) {
                                (true, _) => "artist.reports.is_settled",
                                (false, true) => "artist.reports.is_answered",
                                (false, false) => "artist.reports.is_new",
                            }).to_owned()}
                        }
                    }
                }
            }
        }
    }
}
