//! The studio's particulars: at the first start, and to be changed.

use dioxus::prelude::*;
use shared_types::page::{artist::ParticularsScreen, form::Filled};

use super::{Choices, Csrf, TextField, WholeFault, use_page};
use crate::parts::fault_text;

#[component]
pub(super) fn ParticularsChange(screen: ParticularsScreen) -> Element {
    let page = use_page();
    let words = &page.words;
    let form = &screen.form;
    rsx! {
        form { class: "narrow", method: "post", action: "/studio/particulars",
            h1 { {words.say("artist.particulars.title").to_owned()} }
            p { {words.say("artist.particulars.intro").to_owned()} }
            WholeFault { form: form.clone() }
            Csrf {}
            ParticularsFields { form: form.clone(), regions: screen.regions.clone(), time_zones: screen.time_zones.clone(), languages: screen.languages.clone() }
            button { r#type: "submit", {words.say("artist.particulars.button").to_owned()} }
            p { class: "onward", a { href: "/studio/practice", {words.say("artist.particulars.back").to_owned()} } }
        }
    }
}

/// The fields `studio_name, phone, contact_email, region, time_zone, language`.
#[component]
pub(super) fn ParticularsFields(
    form: Filled,
    regions: Vec<(String, String)>,
    time_zones: Vec<String>,
    languages: Vec<(String, String)>,
) -> Element {
    let page = use_page();
    let words = &page.words;
    let text = |key: &str| words.say(&format!("artist.begin.{key}")).to_owned();
    rsx! {
        TextField { name: "studio_name", label: text("studio_name"), longest: 80, form: form.clone() }
        TextField { name: "phone", kind: "tel", label: text("phone"), hint: text("phone_hint"), required: false, form: form.clone() }
        TextField { name: "contact_email", kind: "email", label: text("contact_email"), required: false, form: form.clone() }
        Choices { kind: "radio", name: "region", legend: text("region"), options: regions, form: form.clone() }
        div { class: "field",
            label { r#for: "field-time_zone", {text("time_zone")} }
            {fault_text("time_zone", form.fault("time_zone").map(str::to_owned))}
            select { id: "field-time_zone", name: "time_zone", required: true,
                option { value: "", selected: form.value("time_zone").is_empty(), {text("choose")} }
                for zone in &time_zones {
                    option { key: "{zone}", value: "{zone}", selected: form.value("time_zone") == zone, "{zone}" }
                }
            }
        }
        Choices { kind: "radio", name: "language", legend: text("language"), options: languages, form: form.clone() }
    }
}
