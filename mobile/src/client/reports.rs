//! What became of the client's reports: received, seen, answered, settled; and how it goes since.

use dioxus::prelude::*;
use shared_types::{page::client::SentCard, reaction::How};

use super::{
    Page,
    errand::Errand,
    life::{self, Live},
    use_page,
    whereabouts::Whereabouts,
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
            Whereabouts { errand: Errand::FollowUp }
            for report in reports.iter() {
                {sent(&page, Errand::Report, report, live)}
            }
        }
    }
}

/// What the studio has, and what it said to that.
pub(super) fn sent(page: &Page, errand: Errand, card: &SentCard, live: Live) -> Element {
    let words = &page.words;
    rsx! {
        article { class: "report", key: "{card.id}",
            p { class: "received",
                {words.fill("client.reports.received", &[("when", &card.received.text), ("studio", &page.studio_name)])}
            }
            blockquote { "{card.gist}" }
            if !card.now.is_empty() {
                h3 { {words.say("client.follow.now").to_owned()} }
                ul { class: "do",
                    for (at, sentence) in card.now.iter().enumerate() {
                        li { key: "{at}", "{sentence}" }
                    }
                }
            }
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
            for (at, step) in card.steps.iter().enumerate() {
                p { class: "step", key: "{at}", "{step}" }
            }
            if card.ask > 0 {
                {how_now(page, card, live)}
            }
            if errand == Errand::Report {
                p { class: "worse", {words.fill("client.reports.worse", &[("number", &page.emergency)])} }
            }
        }
    }
}

/// How it goes, asked again: one tap. A plain form, whose answer comes with the page.
fn how_now(page: &Page, card: &SentCard, live: Live) -> Element {
    rsx! {
        form { class: "how", method: "post", action: "{page.path}/reports/{card.id}/follow-ups/{card.ask}",
            p { {page.words.say("client.follow.ask").to_owned()} }
            for how in How::ALL.iter().copied() {
                button { r#type: "submit", class: "quiet", name: "how", value: "{how}", key: "{how}",
                    onclick: {
                        let (page, card) = (page.clone(), card.clone());
                        move |event| life::follow_up(&event, &page, live, &card, how)
                    },
                    {page.words.say(&format!("client.follow.{how}")).to_owned()}
                }
            }
        }
    }
}
