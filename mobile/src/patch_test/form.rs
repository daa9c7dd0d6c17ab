//! The one form of the page: what do you see?

use dioxus::prelude::*;
use shared_types::{page::patch_tests::PatchTestPage, patch_test::Noticed, reaction::WORDS_MAX};

use super::say;
use crate::parts::{fault_text, text_area_text};

pub(super) fn tell(page: &PatchTestPage) -> Element {
    let words = &page.words;
    let form = &page.form;
    let fault = |field: &str| form.fault(field).map(str::to_owned);
    let told_by = |field: &str| form.fault(field).map(|_| format!("fault-{field}"));
    let title = if page.told.is_empty() {
        "tell.title"
    } else {
        "tell.again"
    };
    rsx! {
        section { id: "tell", aria_labelledby: "tell-title",
            h2 { id: "tell-title", {say(page, title)} }
            // With the place on the page, which a form that comes back is shown at.
            form { class: "report-form", method: "post", action: "{page.path}/seen#tell", "novalidate": true,
                input { r#type: "hidden", name: "answer_id", value: "{page.form_id}" }
                fieldset { aria_describedby: told_by("noticed"),
                    legend { {say(page, "tell.noticed")} }
                    {fault_text("noticed", fault("noticed"))}
                    for one in Noticed::ALL {
                        label { class: "choice", key: "{one}",
                            input { r#type: "radio", name: "noticed", value: "{one}", "checked": form.has("noticed", one.term()) }
                            span { {words.say(&format!("patch_noticed.{one}")).to_owned()} }
                        }
                    }
                }
                div { class: "field",
                    label { r#for: "told-words", {say(page, "tell.words")} }
                    {fault_text("words", fault("words"))}
                    textarea { id: "told-words", name: "words", rows: "3", maxlength: "{WORDS_MAX}", aria_describedby: told_by("words"), dangerous_inner_html: text_area_text(form.value("words")) }
                }
                div { class: "field consent",
                    {fault_text("consent", fault("consent"))}
                    label { class: "choice",
                        input { r#type: "checkbox", name: "consent", value: "{page.consent_version}", "checked": form.has("consent", &page.consent_version), aria_describedby: told_by("consent") }
                        span { {say(page, "tell.consent")} }
                    }
                }
                p { class: "basis", {say(page, "tell.not_watched")} }
                button { r#type: "submit", class: "send", {say(page, "tell.send")} }
            }
        }
    }
}
