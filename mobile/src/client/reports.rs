//! What became of the client's reports: received, answered, settled; and what is still on the phone.

use dioxus::prelude::*;
use shared_types::page::client::{ClientPage, SentCard};

use super::{
    errand::Errand,
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
                {sent(&page, Errand::Report, report)}
            }
        }
    }
}

/// What the studio has, and what it said to that.
pub(super) fn sent(page: &ClientPage, errand: Errand, card: &SentCard) -> Element {
    let words = &page.words;
    rsx! {
        article { class: "report", key: "{card.id}",
            p { class: "received",
                {words.fill("client.reports.received", &[("when", &card.received.text), ("studio", &page.studio_name)])}
            }
            blockquote { "{card.gist}" }
            if !card.agreed.is_empty() {
                p { class: "lead", {words.fill("client.wish.agreed", &[("when", &card.agreed)])} }
            }
            for (at, answer) in card.answers.iter().enumerate() {
                div { class: "answer", key: "{at}",
                    p { class: "by", {words.fill("client.reports.answered", &[("by", &answer.by), ("when", &answer.at.text)])} }
                    p { class: "text", "{answer.text}" }
                }
            }
            if card.settled && card.agreed.is_empty() {
                p { class: "basis", {words.say("client.reports.settled").to_owned()} }
            } else if card.answers.is_empty() {
                p { {words.say("client.reports.waiting").to_owned()} }
            }
            if errand == Errand::Report {
                p { class: "worse", {words.fill("client.reports.worse", &[("number", &page.emergency)])} }
            }
        }
    }
}

/// Where what was just written is: on this phone, or with the studio. Read out as it changes.
#[component]
pub(super) fn Whereabouts(errand: Errand) -> Element {
    let page = use_page();
    let live = use_context::<Live>();
    let say = |what: &str, when: &str| {
        let key = format!("client.sending.{what}");
        let values = [("studio", page.studio_name.as_str()), ("when", when)];
        page.words.fill(&key, &values)
    };
    let (class, sentence) = match &*live.sending(errand).read() {
        Sending::Nothing => ("", String::new()),
        Sending::Trying => ("kept", say("trying", "")),
        Sending::Kept => ("kept", say("kept", "")),
        Sending::Received(at) => ("received", say("received", &at.text)),
        Sending::Refused(why) => ("refused", why.clone()),
    };
    rsx! {
        div { class: "{errand.whereabouts()} {class}", role: "status", aria_live: "polite",
            if !sentence.is_empty() {
                p { "{sentence}" }
            }
        }
    }
}
