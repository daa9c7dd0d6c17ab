//! One report, with its visit beside it, and the answer.

use dioxus::prelude::*;
use shared_types::page::artist::ReportView;

use super::{
    Csrf, WholeFault,
    before::BeforeOfVisit,
    use_page,
    visit::{Facts, Told},
};
use crate::parts::{fault_text, text_area_text};

#[component]
pub(super) fn ReportScreen(report: ReportView) -> Element {
    let page = use_page();
    let words = &page.words;
    let visit = &report.visit;
    let done = words.list(&visit.done);
    let said = |text: &str| {
        if text.is_empty() {
            words.say("artist.report.not_said").to_owned()
        } else {
            text.to_owned()
        }
    };
    rsx! {
        div { class: "title-line",
            h1 { {words.fill("artist.report.title", &[("name", &visit.first_name)])} }
            p { {words.fill("artist.report.received", &[("when", &report.received.text), ("after", &report.after_visit)])} }
        }
        div { class: "two",
            div {
                section { class: "facts",
                    dl {
                        dt { {words.say("artist.report.signs").to_owned()} }
                        dd { class: "signs", {said(&report.signs.join(" · "))} }
                        dt { {words.say("artist.report.trend").to_owned()} }
                        dd { {said(&report.trend)} }
                        dt { {words.say("artist.report.words").to_owned()} }
                        dd { class: "note-text", {said(&report.words)} }
                        dt { {words.say("artist.report.reach").to_owned()} }
                        dd { {said(&report.reach)} }
                    }
                }
                section {
                    h2 { {words.say("artist.report.answers").to_owned()} }
                    for (at, answer) in report.answers.iter().enumerate() {
                        div { class: "answer", key: "{at}",
                            p { class: "by", {words.fill("artist.report.answered", &[("by", &answer.by), ("when", &answer.at.text)])} }
                            p { class: "note-text", "{answer.text}" }
                        }
                    }
                    form { method: "post", action: "/studio/reports/{report.id}/answer",
                        Csrf {}
                        WholeFault { form: report.form.clone() }
                        input { r#type: "hidden", name: "answer_id", value: "{report.answer_id}" }
                        div { class: "field",
                            label { r#for: "field-text", {words.fill("artist.report.your_answer", &[("name", &visit.first_name)])} }
                            p { class: "hint", id: "hint-text", {words.say("artist.report.answer_hint").to_owned()} }
                            {fault_text("text", report.form.fault("text").map(str::to_owned))}
                            textarea { id: "field-text", name: "text", rows: "5", required: true, maxlength: "4000", aria_describedby: if report.form.fault("text").is_some() { "hint-text fault-text" } else { "hint-text" }, dangerous_inner_html: text_area_text(report.form.value("text")) }
                        }
                        button { r#type: "submit", {words.say("artist.report.send").to_owned()} }
                    }
                    match &report.settled {
                        Some(at) => rsx! {
                            p { class: "hint", {words.fill("artist.report.settled", &[("when", &at.text)])} }
                            form { method: "post", action: "/studio/reports/{report.id}/reopen",
                                Csrf {}
                                button { r#type: "submit", class: "quiet", {words.say("artist.report.reopen").to_owned()} }
                            }
                        },
                        None => rsx! {
                            form { method: "post", action: "/studio/reports/{report.id}/settle",
                                Csrf {}
                                button { r#type: "submit", class: "quiet", {words.say("artist.report.settle").to_owned()} }
                            }
                        },
                    }
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
                BeforeOfVisit { visit: visit.clone() }
                Facts { visit: visit.clone() }
                Told { visit: visit.clone(), title: words.say("artist.visit.told").to_owned() }
            }
        }
    }
}
