//! Recording a patch test that was put on.

use dioxus::prelude::*;
use shared_types::{page::patch_tests::NewPatchTest, patch_test::PLACE_WORDS_MAX, visit::limits};

use super::super::{Choices, Csrf, TextField, WholeFault, use_page};
use crate::parts::{fault_text, text_area_text};

#[component]
pub(crate) fn NewPatchTestScreen(screen: NewPatchTest) -> Element {
    let page = use_page();
    let words = &page.words;
    let form = &screen.form;
    let text = |key: &str| words.say(&format!("artist.patch_test.{key}")).to_owned();
    let visit = |key: &str| words.say(&format!("artist.record.{key}")).to_owned();
    rsx! {
        form { class: "record", method: "post", action: "/studio/patch-tests/new",
            h1 { {words.say("artist.page_title.patch_test_new").to_owned()} }
            p { class: "hint", {text("reads")} }
            WholeFault { form: form.clone() }
            Csrf {}
            input { r#type: "hidden", name: "test_id", value: "{screen.test_id}" }
            div { class: "two",
                section {
                    h2 { {text("who")} }
                    if !screen.clients.is_empty() {
                        div { class: "field",
                            label { r#for: "field-client", {visit("known")} }
                            {fault_text("client", form.fault("client").map(str::to_owned))}
                            select { id: "field-client", name: "client", aria_describedby: form.fault("client").map(|_| "fault-client"),
                                option { value: "", selected: form.value("client").is_empty(), {visit("new_client")} }
                                for (id, name) in &screen.clients {
                                    option { key: "{id}", value: "{id}", selected: form.value("client") == id, "{name}" }
                                }
                            }
                        }
                    }
                    TextField { name: "first_name", label: visit("first_name"), hint: visit("if_new"), required: false, longest: limits::NAME, form: form.clone() }
                    TextField { name: "reach", label: visit("reach"), required: false, longest: limits::REACH, form: form.clone() }
                    div { class: "pair",
                        TextField { name: "date", kind: "date", label: visit("date"), form: form.clone() }
                        TextField { name: "time", kind: "time", label: text("time"), form: form.clone() }
                    }
                }
                section {
                    h2 { {text("what")} }
                    Choices { kind: "checkbox", name: "treatments", legend: text("treatments"), options: screen.treatments.clone(), form: form.clone() }
                    div { class: "pair",
                        TextField { name: "product", label: text("product"), list: "known-products".to_owned(), longest: limits::PRODUCT, form: form.clone() }
                        TextField { name: "batch", label: visit("batch"), required: false, longest: limits::BATCH, form: form.clone() }
                    }
                    datalist { id: "known-products",
                        for product in &screen.known_products {
                            option { key: "{product}", value: "{product}" }
                        }
                    }
                    Choices { kind: "radio", name: "place", legend: text("place"), options: screen.places.clone(), form: form.clone() }
                    TextField { name: "place_words", label: text("place_words"), hint: text("place_words_hint"), required: false, longest: PLACE_WORDS_MAX, form: form.clone() }
                    div { class: "field",
                        label { r#for: "field-note", {text("note")} }
                        {fault_text("note", form.fault("note").map(str::to_owned))}
                        textarea { id: "field-note", name: "note", rows: "2", maxlength: "{limits::NOTE}", dangerous_inner_html: text_area_text(form.value("note")) }
                    }
                }
            }
            div { class: "finish",
                button { r#type: "submit", {text("button")} }
            }
        }
    }
}
