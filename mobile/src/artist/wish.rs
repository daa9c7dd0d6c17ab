//! Wishes for a time: as lines, and one with its visit beside it, to be answered in a tap or in words.

use dioxus::prelude::*;
use shared_types::{
    page::{
        form::Filled,
        wishes::{WishLine, WishTime, WishView, Wishes},
    },
    reaction::WORDS_MAX,
    wish::TIMES,
};

use super::{
    Csrf, TextArea, TextField, WholeFault, use_page,
    visit::{Facts, Told},
    waits::{SettlePart, answers},
};
use crate::parts::fault_text;

#[component]
pub(super) fn WishesScreen(screen: Wishes) -> Element {
    let page = use_page();
    let words = &page.words;
    rsx! {
        h1 { {words.say("artist.wishes.title").to_owned()} }
        section {
            h2 { {words.say("artist.wishes.open").to_owned()} }
            if screen.waiting.is_empty() {
                p { class: "hint", {words.say("artist.wishes.none_waiting").to_owned()} }
            } else {
                WishLines { lines: screen.waiting.clone() }
            }
        }
        if !screen.settled.is_empty() {
            section {
                h2 { {words.say("artist.wishes.settled").to_owned()} }
                WishLines { lines: screen.settled.clone() }
            }
        }
    }
}

#[component]
pub(super) fn WishLines(lines: Vec<WishLine>) -> Element {
    let page = use_page();
    let words = &page.words;
    rsx! {
        ul { class: "lines",
            for line in &lines {
                li { key: "{line.id}", class: if !line.settled && !line.answered { "unanswered" },
                    a { href: "/studio/wishes/{line.id}",
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
                            match &line.agreed {
                                Some(at) => words.fill("artist.wishes.is_agreed", &[("when", &at.text)]),
                                None => words.say(match (line.settled, line.answered) {
                                    (true, _) => "artist.reports.is_settled",
                                    (false, true) => "artist.reports.is_answered",
                                    (false, false) => "artist.reports.is_new",
                                }).to_owned(),
                            }
                        }
                    }
                }
            }
        }
    }
}

#[component]
pub(super) fn WishScreen(wish: WishView) -> Element {
    let page = use_page();
    let words = &page.words;
    let visit = &wish.visit;
    let done = words.list(&visit.done);
    let text = |key: &str| words.say(&format!("artist.wish.{key}")).to_owned();
    rsx! {
        div { class: "title-line",
            h1 { {words.fill("artist.wish.title", &[("name", &visit.first_name)])} }
            p { {words.fill("artist.wish.received", &[("when", &wish.received.text)])} }
        }
        div { class: "two",
            div {
                section {
                    h2 { {text("times")} }
                    if let Some(back) = &visit.come_back {
                        p { class: "hint", {words.fill("artist.wish.range", &[("from", &back.from), ("until", &back.until)])} }
                    }
                    WholeFault { form: wish.form.clone() }
                    ol { class: "choose",
                        for (at, (time, field)) in wish.times.iter().zip(TIMES).enumerate() {
                            li { key: "{at}",
                                Take { wish: wish.id.to_string(), answer_id: wish.answer_id.to_string(), number: at + 1, field, time: time.clone(), form: wish.form.clone() }
                            }
                        }
                    }
                    if !wish.words.is_empty() || !wish.reach.is_empty() {
                        dl {
                            if !wish.words.is_empty() {
                                dt { {words.say("artist.report.words").to_owned()} }
                                dd { class: "note-text", "{wish.words}" }
                            }
                            if !wish.reach.is_empty() {
                                dt { {words.say("artist.report.reach").to_owned()} }
                                dd { "{wish.reach}" }
                            }
                        }
                    }
                }
                section {
                    h2 { {words.say("artist.report.answers").to_owned()} }
                    {answers(&wish.answers, words)}
                    if let Some(at) = &wish.agreed {
                        form { method: "post", action: "/studio/wishes/{wish.id}/call-off",
                            Csrf {}
                            button { r#type: "submit", class: "quiet", {words.fill("artist.wish.call_off", &[("when", &at.text)])} }
                        }
                    }
                    form { method: "post", action: "/studio/wishes/{wish.id}/answer",
                        Csrf {}
                        input { r#type: "hidden", name: "answer_id", value: "{wish.answer_id}" }
                        TextArea { name: "text", label: words.fill("artist.wish.your_answer", &[("name", &visit.first_name)]), hint: text("answer_hint"), rows: 4, longest: WORDS_MAX, form: wish.form.clone() }
                        p { class: "hint", {text("another")} }
                        div { class: "pair",
                            TextField { name: "date", kind: "date", label: text("day"), required: false, form: wish.form.clone() }
                            TextField { name: "time", kind: "time", label: text("time"), required: false, form: wish.form.clone() }
                        }
                        button { r#type: "submit", {words.say("artist.report.send").to_owned()} }
                    }
                    SettlePart { address: "/studio/wishes/{wish.id}", settled: wish.settled.clone() }
                }
            }
            div { class: "beside",
                section {
                    h2 { {words.say("artist.report.visit").to_owned()} }
                    p {
                        a { href: "/studio/visits/{visit.id}",
                            {words.fill("artist.visit.done", &[("done", &done), ("when", &visit.finished.text)])}
                        }
                    }
                }
                Facts { visit: visit.clone() }
                Told { visit: visit.clone(), title: words.say("artist.visit.told").to_owned() }
            }
        }
    }
}

/// One of the times, with the tap that takes it. Where any time of the day would do, the studio says which.
#[component]
fn Take(
    wish: String,
    answer_id: String,
    number: usize,
    field: String,
    time: WishTime,
    form: Filled,
) -> Element {
    let page = use_page();
    let words = &page.words;
    if time.over {
        return rsx! {
            p { "{time.text}" }
            p { class: "hint", {words.say("artist.wish.over").to_owned()} }
        };
    }
    let fault = form.fault(&field).map(str::to_owned);
    let value = if form.has("take", &number.to_string()) {
        form.value(&field).to_owned()
    } else {
        time.time.clone()
    };
    rsx! {
        form { method: "post", action: "/studio/wishes/{wish}/answer",
            Csrf {}
            input { r#type: "hidden", name: "answer_id", value: "{answer_id}" }
            input { r#type: "hidden", name: "take", value: "{number}" }
            p { "{time.text}" }
            {fault_text(&field, fault.clone())}
            div { class: "take",
                input { r#type: "time", name: "{field}", required: true, aria_label: words.fill("artist.wish.time_of", &[("day", &time.text)]), aria_describedby: fault.as_ref().map(|_| format!("fault-{field}")), aria_invalid: fault.map(|_| "true"), "value": value }
                button { r#type: "submit", {words.fill("artist.wish.take", &[("n", &number.to_string())])} }
            }
        }
    }
}
