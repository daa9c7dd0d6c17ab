//! The page for when something is not right: one plain form with every question, all advice, and the report. Alive, one
//! question is shown at a time, and the rules on the phone say what to do.

use std::rc::Rc;

use dioxus::prelude::*;
use shared_types::page::trouble::TroublePage;

use super::{
    desk::Desk,
    errand::Errand,
    life::{self, Live},
    still_part,
    whereabouts::Whereabouts,
};

pub type Trouble = Rc<TroublePage>;

/// The root. Expects a [`Trouble`] as root context.
#[component]
pub fn TroubleApp() -> Element {
    let page = use_hook(consume_context::<Trouble>);
    let live = use_context_provider(|| Live::with(page.now, page.form.clone()));
    let desk = use_context_provider(|| page.clone() as Desk);
    life::use_trouble(page.clone(), live);

    let still = &page.still;
    let form = live.form.read();
    let typist = desk.clone();
    rsx! {
        header { class: "head", dangerous_inner_html: still.head.clone() }
        main { id: "trouble",
            {still_part(&still.emergency)}
            Whereabouts { errand: Errand::Report }
            div { role: "status", dangerous_inner_html: "<ul id=\"photos-kept\" class=\"pictures\"></ul>" }
            form {
                id: Errand::Report.form(),
                class: "report-form",
                method: "post",
                action: "{page.path}/reports",
                // For the photos of a plain form.
                enctype: "multipart/form-data",
                "novalidate": true,
                onsubmit: move |event| life::submit(&event, &desk, live, Errand::Report),
                oninput: move |_| life::draft_changed(&*typist, Errand::Report),
                // In quotes, so that the id that the phone makes is not written over.
                input { r#type: "hidden", name: "report_id", "value": "{page.form_id}" }
                {still_part(&still.questions)}
                p { id: "left", class: "hint alive-only" }
                {still_part(&still.advice)}
                section { id: "tell", aria_labelledby: "tell-title",
                    {still_part(&still.tell)}
                    for (at, field) in FAULTY.into_iter().enumerate() {
                        if let Some(sentence) = form.fault(field) {
                            p { class: "fault", role: "alert", key: "{at}", "{sentence}" }
                        }
                    }
                    p { class: "basis", {page.words.say("client.trouble.reply_open").to_owned()} }
                    button { r#type: "submit", class: "send", {page.words.fill("client.tell.send", &[("studio", &page.studio_name)])} }
                }
            }
        }
        footer { dangerous_inner_html: still.foot.clone() }
    }
}

/// The fields that may need mending, the form as a whole first.
const FAULTY: [&str; 6] = ["", "words", "photos", "reach", "consent", "consent_photos"];
