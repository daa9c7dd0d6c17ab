//! What became of the client's reports: received, answered, settled; and what is still on the phone.

use dioxus::prelude::*;
use shared_types::page::client::{ClientPage, ReportCard};

use super::{
    life::{Live, Sending},
    use_page,
};

#[component]
pub(super) fn ReportsSection() -> Element {
    let page = use_page();
    let live = use_context::<Live>();
    let reports = live.reports.read();
    if reports.is_empty() {
        return rsx! {};
    }
    rsx! {
        section { id: "reports", aria_labelledby: "reports-title",
            h2 { id: "reports-title", {page.words.say("client.reports.title").to_owned()} }
            for report in reports.iter() {
                {one(&page, report)}
            }
        }
    }
}

fn one(page: &ClientPage, report: &ReportCard) -> Element {
    let words = &page.words;
    rsx! {
        article { class: "report", key: "{report.id}",
            p { class: "received",
                {words.fill("client.reports.received", &[("when", &report.received.text), ("studio", &page.studio.name)])}
            }
            blockquote { "{report.gist}" }
            for (at, answer) in report.answers.iter().enumerate() {
                div { class: "answer", key: "{at}",
                    p { class: "by", {words.fill("client.reports.answered", &[("by", &answer.by), ("when", &answer.at.text)])} }
                    p { class: "text", "{answer.text}" }
                }
            }
            if report.settled {
                p { class: "basis", {words.say("client.reports.settled").to_owned()} }
            } else if report.answers.is_empty() {
                p { {words.say("client.reports.waiting").to_owned()} }
            }
            p { class: "worse", {words.fill("client.reports.worse", &[("number", &page.studio.emergency.text)])} }
        }
    }
}

/// Where the report that was just written is: on this phone, or with the studio. Read out as it changes.
#[component]
pub(super) fn Whereabouts() -> Element {
    let page = use_page();
    let live = use_context::<Live>();
    let words = &page.words;
    let (class, sentence) = match &*live.sending.read() {
        Sending::Nothing => ("", String::new()),
        Sending::Trying => ("kept", words.say("client.sending.trying").to_owned()),
        Sending::Kept => (
            "kept",
            words.fill("client.sending.kept", &[("studio", &page.studio.name)]),
        ),
        Sending::Received(at) => (
            "received",
            words.fill(
                "client.sending.received",
                &[("studio", &page.studio.name), ("when", &at.text)],
            ),
        ),
        Sending::Refused(why) => ("refused", why.clone()),
    };
    rsx! {
        div { class: "whereabouts {class}", role: "status", aria_live: "polite",
            if !sentence.is_empty() {
                p { "{sentence}" }
            }
        }
    }
}
