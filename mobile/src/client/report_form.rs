//! The report: a plain form that posts by itself; alive, it is kept on the phone and sent until the studio has it.

use dioxus::prelude::*;
use shared_types::reaction::{REACH_MAX, WORDS_MAX};

use super::{
    errand::Errand,
    life::{self, Live},
    reports::Whereabouts,
    still_part, use_page,
};
use crate::parts::{fault_text, text_area_text};

#[component]
pub(super) fn ReportForm() -> Element {
    let page = use_page();
    let live = use_context::<Live>();
    let words = &page.words;
    let form = &page.form;
    let sent = live.form.read();
    let fault = |field: &str| sent.fault(field).map(str::to_owned);
    let sender = page.clone();

    rsx! {
        form {
            id: "report",
            class: "report-form",
            method: "post",
            action: "{page.path}/reports",
            "novalidate": true,
            onsubmit: move |event| life::submit(&event, &sender, live, Errand::Report),
            oninput: { let page = page.clone(); move |_| life::draft_changed(&page, Errand::Report) },

            h3 { {words.fill("client.form.title", &[("studio", &page.studio_name)])} }
            p { {words.say("client.form.intro").to_owned()} }
            Whereabouts { errand: Errand::Report }
            if let Some(whole) = fault("") {
                p { class: "fault", role: "alert", "{whole}" }
            }
            input { r#type: "hidden", name: "report_id", value: "{page.form_id}" }

            fieldset { aria_describedby: fault("signs").map(|_| "fault-signs"),
                legend { {words.say("client.form.signs").to_owned()} }
                {fault_text("signs", fault("signs"))}
                {still_part(&page.still.signs)}
            }
            fieldset {
                legend { {words.say("client.form.since").to_owned()} }
                {still_part(&page.still.since)}
            }
            fieldset {
                legend { {words.say("client.form.trend").to_owned()} }
                {still_part(&page.still.trend)}
            }
            div { class: "field",
                label { r#for: "report-words", {words.say("client.form.words").to_owned()} }
                {fault_text("words", fault("words"))}
                textarea { id: "report-words", name: "words", rows: "4", maxlength: "{WORDS_MAX}", aria_describedby: fault("words").map(|_| "fault-words"), dangerous_inner_html: text_area_text(form.value("words")) }
            }
            div { class: "field",
                label { r#for: "report-reach", {words.say("client.form.reach").to_owned()} }
                p { class: "hint", id: "hint-reach", {words.say("client.form.reach_hint").to_owned()} }
                {fault_text("reach", fault("reach"))}
                input { id: "report-reach", r#type: "text", name: "reach", autocomplete: "tel", maxlength: "{REACH_MAX}", aria_describedby: if fault("reach").is_some() { "hint-reach fault-reach" } else { "hint-reach" }, "value": form.value("reach") }
            }
            div { class: "field consent",
                {fault_text("consent", fault("consent"))}
                {choice("checkbox", "consent", &page.consent_version, &words.fill("client.form.consent", &[("studio", &page.studio_name)]), form.has("consent", &page.consent_version), fault("consent").map(|_| "fault-consent"))}
            }
            p { class: "basis", {words.say("client.form.not_watched").to_owned()} }
            button { r#type: "submit", class: "send", {words.fill("client.form.send", &[("studio", &page.studio_name)])} }
        }
    }
}

/// A large answer: the whole line is its target.
pub(super) fn choice(
    kind: &str,
    name: &str,
    value: &str,
    label: &str,
    chosen: bool,
    told_by: Option<&'static str>,
) -> Element {
    rsx! {
        label { class: "choice",
            input { r#type: "{kind}", name: "{name}", value: "{value}", "checked": chosen, aria_describedby: told_by }
            span { "{label}" }
        }
    }
}
