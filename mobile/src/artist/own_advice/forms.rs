//! One caution: to change it, or to add one.

use dioxus::prelude::*;
use shared_types::{
    page::own_advice::{AddCaution, ChangeCaution},
    visit::limits,
};

use super::{
    super::{Choices, Csrf, TextArea, TextField, WholeFault, use_page},
    sources,
};

#[component]
pub(in crate::artist) fn ChangeCautionForm(screen: ChangeCaution) -> Element {
    let page = use_page();
    let words = &page.words;
    let form = &screen.form;
    let text = |key: &str| words.say(&format!("artist.cautions.{key}")).to_owned();
    let asks_reason = form.fault("reason").is_some() || !form.value("reason").is_empty();
    rsx! {
        form { class: "narrow", method: "post", action: "{screen.address}",
            h1 { "{screen.what}" }
            p { class: "note", "{screen.treatment}. {screen.range}" }
            if !screen.longer.is_empty() {
                p { "{screen.longer}" }
            }
            p { "{screen.why} {screen.basis}" }
            details { class: "fold",
                summary { {text("sources")} }
                {sources(&screen.sources)}
            }
            WholeFault { form: form.clone() }
            Csrf {}
            TextField { name: "hours", kind: "number", label: text("form_hours"), hint: text("form_hours_hint"), required: false, longest: 5, form: form.clone() }
            // Asked only where the hours lie outside the range.
            if asks_reason {
                TextArea { name: "reason", label: text("reason"), hint: text("reason_hint"), longest: limits::NOTE, form: form.clone() }
            }
            TextField { name: "what", label: text("form_what"), hint: text("form_words_hint"), required: false, longest: limits::REACH, form: form.clone() }
            TextArea { name: "why", label: text("form_why"), longest: limits::NOTE, form: form.clone() }
            button { r#type: "submit", {text("save")} }
            if screen.is_own {
                " "
                input { class: "button quiet", r#type: "submit", name: "usual", formnovalidate: true, value: text("to_usual") }
            }
            p { class: "onward", a { href: "/studio/cautions", {text("back_cautions")} } }
        }
    }
}

#[component]
pub(in crate::artist) fn AddCautionForm(screen: AddCaution) -> Element {
    let page = use_page();
    let words = &page.words;
    let form = &screen.form;
    let text = |key: &str| words.say(&format!("artist.cautions.{key}")).to_owned();
    rsx! {
        form { class: "narrow", method: "post", action: "{screen.address}",
            h1 { {text("new_title")} }
            WholeFault { form: form.clone() }
            Csrf {}
            Choices { kind: "checkbox", name: "treatments", legend: text("treatments"), options: screen.treatments.clone(), form: form.clone() }
            TextField { name: "what", label: text("form_what"), hint: text("new_what_hint"), longest: limits::REACH, form: form.clone() }
            TextArea { name: "why", label: text("new_why"), longest: limits::NOTE, form: form.clone() }
            TextField { name: "hours", kind: "number", label: text("form_hours"), hint: text("new_hours_hint"), longest: 5, form: form.clone() }
            button { r#type: "submit", {text("save")} }
            if screen.is_kept {
                " "
                input { class: "button quiet", r#type: "submit", name: "remove", formnovalidate: true, value: text("remove") }
            }
            p { class: "onward", a { href: "/studio/cautions", {text("back_cautions")} } }
        }
    }
}
