//! Recording a visit: twenty seconds with the gloves just off.

use dioxus::prelude::*;
use shared_types::{page::artist::RecordVisit, visit::limits};

use super::{
    Choices, Csrf, TextField, WholeFault,
    before::{BeforeFields, LookBefore, put_off_list},
    life,
    look_again::{FlagsPart, LookAgainPart},
    use_page,
    zones::ZonesField,
};
use crate::parts::{fault_text, text_area_text};

/// Lines for products that a new form offers; a visit may carry more through the record itself.
const PRODUCT_LINES: usize = 4;

#[component]
pub(super) fn RecordVisitScreen(screen: RecordVisit) -> Element {
    let page = use_page();
    let words = &page.words;
    let form = &screen.form;
    let text = |key: &str| words.say(&format!("artist.record.{key}")).to_owned();
    let lines_used = (1..=PRODUCT_LINES)
        .filter(|line| !form.value(&format!("product_{line}")).is_empty())
        .count();
    rsx! {
        form { class: "record", method: "post", action: "/studio/visits/new",
            h1 { {text("title")} }
            // A line break in a text field presses the first button of a form, which must be the one that saves.
            input { class: "first-button", r#type: "submit", tabindex: "-1", aria_hidden: "true", value: text("button") }
            WholeFault { form: form.clone() }
            Csrf {}
            input { r#type: "hidden", name: "visit_id", value: "{screen.visit_id}" }
            if !screen.before.lines.is_empty() {
                BeforeFields { before: screen.before.clone(), form: form.clone() }
            }

            div { class: "two",
                section {
                    h2 { {text("who")} }
                    if !screen.clients.is_empty() {
                        div { class: "field",
                            label { r#for: "field-client", {text("known")} }
                            {fault_text("client", form.fault("client").map(str::to_owned))}
                            p { class: "hint", id: "hint-client", {words.say("artist.look.up_hint").to_owned()} }
                            select {
                                id: "field-client",
                                name: "client",
                                aria_describedby: if form.fault("client").is_some() { "hint-client fault-client" } else { "hint-client" },
                                onchange: |_| life::look_up(),
                                option { value: "", selected: form.value("client").is_empty(), {text("new_client")} }
                                for (id, name) in &screen.clients {
                                    option { key: "{id}", value: "{id}", selected: form.value("client") == id, "{name}" }
                                }
                            }
                            input {
                                id: "look-up",
                                class: "button quiet",
                                r#type: "submit",
                                name: "look_up",
                                formnovalidate: true,
                                value: words.say("artist.look.up").to_owned(),
                            }
                        }
                    }
                    TextField { name: "first_name", label: text("first_name"), hint: text("if_new"), required: false, longest: limits::NAME, form: form.clone() }
                    TextField { name: "reach", label: text("reach"), required: false, longest: limits::REACH, form: form.clone() }
                    div { class: "pair",
                        TextField { name: "date", kind: "date", label: text("date"), form: form.clone() }
                        TextField { name: "time", kind: "time", label: text("time"), form: form.clone() }
                    }
                    if !screen.before.not_again.is_empty() {
                        div { class: "not-again",
                            p { class: "list-title", {words.say("artist.not_again.stands").to_owned()} }
                            ul {
                                for (at, product) in screen.before.not_again.iter().enumerate() {
                                    li { key: "{at}", "{product}" }
                                }
                            }
                        }
                    }
                    {put_off_list(&screen.before.put_off, words.say("artist.before.kept_earlier"))}
                    LookAgainPart { look: screen.look_again.clone(), form: form.clone() }
                }
                section {
                    h2 { {text("what")} }
                    Choices { kind: "checkbox", name: "treatments", legend: text("treatments"), options: screen.treatments.clone(), form: form.clone() }
                    Choices { kind: "checkbox", name: "findings", legend: text("findings"), options: screen.findings.clone(), form: form.clone() }
                    if screen.before.ask_stopped {
                        TextField {
                            name: "retinoid_stopped_days",
                            kind: "number",
                            label: words.say("artist.before.stopped").to_owned(),
                            hint: words.say("artist.before.stopped_hint").to_owned(),
                            required: false,
                            longest: 4,
                            form: form.clone(),
                        }
                    }
                    LookBefore {}
                    Choices { kind: "checkbox", name: "during", legend: text("during"), options: screen.during.clone(), form: form.clone() }
                    FlagsPart { look: screen.look_again.clone(), form: form.clone() }
                }
            }
            if screen.before.lines.is_empty() {
                BeforeFields { before: screen.before.clone(), form: form.clone() }
            }
            ZonesField { form: form.clone() }
            details { class: "more", open: lines_used > 0 || !screen.before.not_again.is_empty() || !form.value("note").is_empty() || form.is_faulty(),
                summary { {text("products")} }
                p { class: "hint", {text("products_hint")} }
                for line in 1..=PRODUCT_LINES {
                    div { class: "pair", key: "{line}",
                        TextField { name: "product_{line}", label: text("product"), list: "known-products".to_owned(), required: false, longest: limits::PRODUCT, form: form.clone() }
                        TextField { name: "batch_{line}", label: text("batch"), required: false, longest: limits::BATCH, form: form.clone() }
                    }
                }
                datalist { id: "known-products",
                    for product in &screen.known_products {
                        option { key: "{product}", value: "{product}" }
                    }
                }
                div { class: "field",
                    label { r#for: "field-note", {text("note")} }
                    {fault_text("note", form.fault("note").map(str::to_owned))}
                    textarea { id: "field-note", name: "note", rows: "3", maxlength: "{limits::NOTE}", dangerous_inner_html: text_area_text(form.value("note")) }
                }
            }
            div { class: "finish",
                button { r#type: "submit", {text("button")} }
            }
        }
    }
}
