//! What the artist's forms are made of.

use dioxus::prelude::*;
use shared_types::page::form::Filled;

use super::use_page;
use crate::parts::{fault_text, text_area_text};

/// The token that shows that a form came from the artist's own screen.
#[component]
pub(super) fn Csrf() -> Element {
    let page = use_page();
    rsx! { input { r#type: "hidden", name: "csrf", value: "{page.csrf}" } }
}

/// The sentence that stands for a form as a whole.
#[component]
pub(super) fn WholeFault(form: Filled) -> Element {
    rsx! {
        if let Some(sentence) = form.fault("") {
            p { class: "fault", role: "alert", "{sentence}" }
        }
    }
}

/// How a form of settings begins: when it was last changed, and what is wrong with it as a whole.
#[component]
pub(super) fn SettingsTop(changed: String, form: Filled) -> Element {
    rsx! {
        if !changed.is_empty() {
            p { class: "hint", "{changed}" }
        }
        WholeFault { form }
        Csrf {}
    }
}

/// A line of text with its label, its hint and its fault.
#[component]
pub(super) fn TextField(
    name: String,
    label: String,
    form: Filled,
    #[props(default = "text".to_owned())] kind: String,
    #[props(default)] hint: String,
    #[props(default)] autocomplete: String,
    #[props(default)] list: Option<String>,
    #[props(default = true)] required: bool,
    #[props(default = 200)] longest: usize,
) -> Element {
    let fault = form.fault(&name);
    let input = rsx! {
        input {
            id: "field-{name}",
            name: "{name}",
            r#type: "{kind}",
            autocomplete: if autocomplete.is_empty() { "off".to_owned() } else { autocomplete },
            list,
            required,
            maxlength: "{longest}",
            aria_describedby: told_by(&name, &hint, fault),
            aria_invalid: fault.map(|_| "true"),
            "value": form.value(&name).to_owned(),
        }
    };
    around(&name, &label, &hint, fault, input)
}

/// A longer text with its label, its hint and its fault.
#[component]
pub(super) fn TextArea(
    name: String,
    label: String,
    #[props(default)] hint: String,
    #[props(default = 3)] rows: u32,
    #[props(default)] required: bool,
    longest: usize,
    form: Filled,
) -> Element {
    let fault = form.fault(&name);
    let area = rsx! {
        textarea {
            id: "field-{name}",
            name: "{name}",
            rows: "{rows}",
            required,
            maxlength: "{longest}",
            aria_describedby: told_by(&name, &hint, fault),
            aria_invalid: fault.map(|_| "true"),
            dangerous_inner_html: text_area_text(form.value(&name)),
        }
    };
    around(&name, &label, &hint, fault, area)
}

/// The ids of what tells more of a field: its hint, its fault.
fn told_by(name: &str, hint: &str, fault: Option<&str>) -> Option<String> {
    match (hint.is_empty(), fault.is_some()) {
        (true, false) => None,
        (false, false) => Some(format!("hint-{name}")),
        (true, true) => Some(format!("fault-{name}")),
        (false, true) => Some(format!("hint-{name} fault-{name}")),
    }
}

/// A field with what stands over it.
fn around(name: &str, label: &str, hint: &str, fault: Option<&str>, field: Element) -> Element {
    rsx! {
        div { class: "field",
            label { r#for: "field-{name}", "{label}" }
            if !hint.is_empty() {
                p { class: "hint", id: "hint-{name}", "{hint}" }
            }
            {fault_text(name, fault.map(str::to_owned))}
            {field}
        }
    }
}

/// The terms of a closed set, as boxes to tick or as one to choose; the whole line is the target.
#[component]
pub(super) fn Choices(
    kind: String,
    name: String,
    legend: String,
    options: Vec<(String, String)>,
    form: Filled,
) -> Element {
    let fault = form.fault(&name).map(str::to_owned);
    rsx! {
        fieldset { aria_describedby: fault.as_ref().map(|_| format!("fault-{name}")),
            legend { "{legend}" }
            {fault_text(&name, fault.clone())}
            div { class: "choices",
                for (value, label) in &options {
                    label { class: "choice", key: "{value}",
                        input { r#type: "{kind}", name: "{name}", value: "{value}", "checked": form.has(&name, value) }
                        span { "{label}" }
                    }
                }
            }
        }
    }
}
