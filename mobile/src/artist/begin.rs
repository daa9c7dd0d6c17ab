//! First start: the studio is named and the artist's account is made.

use dioxus::prelude::*;
use shared_types::page::artist::Begin;

use super::{Choices, TextField, WholeFault, use_page};
use crate::parts::FaultText;

#[component]
pub(super) fn BeginScreen(screen: Begin) -> Element {
    let page = use_page();
    let words = &page.words;
    let form = &screen.form;
    let text = |key: &str| words.say(&format!("artist.begin.{key}")).to_owned();
    rsx! {
        form { class: "narrow", method: "post", action: "/studio/begin",
            h1 { {text("title")} }
            p { {text("intro")} }
            WholeFault { form: form.clone() }
            TextField { name: "code", label: text("code"), hint: text("code_hint"), form: form.clone() }
            h2 { {text("studio")} }
            TextField { name: "studio_name", label: text("studio_name"), longest: 80, form: form.clone() }
            TextField { name: "phone", kind: "tel", label: text("phone"), hint: text("phone_hint"), required: false, form: form.clone() }
            TextField { name: "contact_email", kind: "email", label: text("contact_email"), required: false, form: form.clone() }
            Choices { kind: "radio", name: "region", legend: text("region"), options: screen.regions.clone(), form: form.clone() }
            div { class: "field",
                label { r#for: "field-time_zone", {text("time_zone")} }
                FaultText { field: "time_zone", sentence: form.fault("time_zone").map(str::to_owned) }
                select { id: "field-time_zone", name: "time_zone", required: true,
                    option { value: "", selected: form.value("time_zone").is_empty(), {text("choose")} }
                    for zone in &screen.time_zones {
                        option { key: "{zone}", value: "{zone}", selected: form.value("time_zone") == zone, "{zone}" }
                    }
                }
            }
            h2 { {text("account")} }
            TextField { name: "artist_name", label: text("artist_name"), hint: text("artist_name_hint"), autocomplete: "name", longest: 80, form: form.clone() }
            TextField { name: "email", kind: "email", label: text("email"), autocomplete: "username", form: form.clone() }
            TextField { name: "password", kind: "password", label: text("password"), hint: text("password_hint"), autocomplete: "new-password", form: form.clone() }
            button { r#type: "submit", {text("button")} }
        }
    }
}
