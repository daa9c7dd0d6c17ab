//! The answers, and one more: in the artist's words, with sentences to begin with.

use dioxus::prelude::*;
use shared_types::{page::reports::ReportView, reaction::WORDS_MAX};

use super::super::{Csrf, TextArea, WholeFault, life, use_page, waits::answers};

/// The text area that a beginning is put into.
const FIELD: &str = "text";

#[component]
pub(super) fn AnswerPart(report: ReportView) -> Element {
    let page = use_page();
    let words = &page.words;
    rsx! {
        section { class: "answers",
            h2 { {words.say("artist.report.answers").to_owned()} }
            {answers(&report.answers, words)}
            form { method: "post", action: "/studio/reports/{report.id}/answer",
                Csrf {}
                WholeFault { form: report.form.clone() }
                input { r#type: "hidden", name: "answer_id", value: "{report.answer_id}" }
                TextArea {
                    name: FIELD,
                    label: words.fill("artist.report.your_answer", &[("name", &report.visit.first_name)]),
                    hint: words.say("artist.report.answer_hint").to_owned(),
                    rows: 5,
                    required: true,
                    longest: WORDS_MAX,
                    form: report.form.clone(),
                }
                Beginnings { sentences: report.beginnings.clone() }
                button { r#type: "submit", {words.say("artist.report.send").to_owned()} }
            }
        }
    }
}

/// Sentences to begin with: put into the text by a tap, or to be copied where no script runs.
#[component]
fn Beginnings(sentences: Vec<String>) -> Element {
    let page = use_page();
    let words = &page.words;
    let alive = life::use_alive_signal();
    rsx! {
        if !sentences.is_empty() {
            details { class: "beginnings",
                summary { {words.say("artist.work.beginnings").to_owned()} }
                ul {
                    for (at, sentence) in sentences.iter().enumerate() {
                        li { key: "{at}",
                            if *alive.read() {
                                button {
                                    r#type: "button",
                                    class: "quiet",
                                    onclick: { let sentence = sentence.clone(); move |_| life::put_text(FIELD, &sentence) },
                                    "{sentence}"
                                }
                            } else {
                                "{sentence}"
                            }
                        }
                    }
                }
                p { a { href: "/studio/reports/replies", {words.say("artist.desk.link").to_owned()} } }
            }
        }
    }
}
