//! What the labels of products say.

use dioxus::prelude::*;
use shared_types::{
    page::own_advice::{LabelRow, LabelsScreen},
    visit::limits,
};

use super::super::{Choices, Csrf, TextArea, TextField, WholeFault, use_page};
use crate::parts::fault_text;

#[component]
pub(in crate::artist) fn LabelsForm(screen: LabelsScreen) -> Element {
    let page = use_page();
    let words = &page.words;
    let form = &screen.form;
    let text = |key: &str| words.say(&format!("artist.labels.{key}")).to_owned();
    rsx! {
        div { class: "practice",
            h1 { {text("title")} }
            p { {text("intro")} }
            if !screen.changed.is_empty() {
                p { class: "hint", "{screen.changed}" }
            }
            div { class: "two",
                section {
                    h2 { {text("listed")} }
                    if screen.labels.is_empty() {
                        p { class: "hint", {text("none")} }
                    }
                    for (at, label) in screen.labels.iter().enumerate() {
                        Row { key: "{at}", label: label.clone() }
                    }
                }
                form { method: "post", action: "/studio/labels",
                    h2 { {text("add")} }
                    p { class: "hint", {text("add_hint")} }
                    WholeFault { form: form.clone() }
                    Csrf {}
                    TextField { name: "product", label: text("product"), list: "known-products".to_owned(), longest: limits::PRODUCT, form: form.clone() }
                    datalist { id: "known-products",
                        for product in &screen.known_products {
                            option { key: "{product}", value: "{product}" }
                        }
                    }
                    div { class: "field",
                        label { r#for: "field-kind", {text("kind")} }
                        {fault_text("kind", form.fault("kind").map(str::to_owned))}
                        select {
                            id: "field-kind",
                            name: "kind",
                            required: true,
                            aria_describedby: form.fault("kind").map(|_| "fault-kind"),
                            option { value: "", selected: form.value("kind").is_empty(), {text("choose")} }
                            for (term, said) in &screen.kinds {
                                option { key: "{term}", value: "{term}", selected: form.value("kind") == term, "{said}" }
                            }
                        }
                    }
                    TextField { name: "hours", kind: "number", label: text("hours"), longest: 5, form: form.clone() }
                    TextArea { name: "words", label: text("words"), longest: limits::NOTE, form: form.clone() }
                    Choices { kind: "checkbox", name: "treatments", legend: text("treatments"), options: screen.treatments.clone(), form: form.clone() }
                    p { class: "hint", {text("treatments_hint")} }
                    button { r#type: "submit", {text("save")} }
                }
            }
            p { class: "onward", a { href: "/studio/cautions", {words.say("artist.cautions.back_cautions").to_owned()} } }
        }
    }
}

#[component]
fn Row(label: LabelRow) -> Element {
    let page = use_page();
    let words = &page.words;
    let what = format!("{}: {}", label.product, label.said);
    rsx! {
        form { class: "label-row", method: "post", action: "/studio/labels",
            Csrf {}
            input { r#type: "hidden", name: "product", value: "{label.product}" }
            input { r#type: "hidden", name: "kind", value: "{label.kind}" }
            p {
                strong { "{label.product}" }
                br {}
                "{label.said}"
            }
            if !label.words.is_empty() {
                p { class: "note-text", "{label.words}" }
            }
            p { class: "hint", "{label.treatments}" }
            button { r#type: "submit", class: "quiet", name: "remove", value: "yes", aria_label: format!("{} ({what})", words.say("artist.labels.remove")),
                {words.say("artist.labels.remove").to_owned()}
            }
        }
    }
}
