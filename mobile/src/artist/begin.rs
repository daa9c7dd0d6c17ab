//! First start: the studio is named and the artist's account is made.

use dioxus::prelude::*;
use shared_types::page::artist::Begin;

use super::{TextField, WholeFault, particulars::ParticularsFields, use_page};

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
            ParticularsFields { form: form.clone(), regions: screen.regions.clone(), time_zones: screen.time_zones.clone(), languages: screen.languages.clone() }
            h2 { {text("account")} }
            TextField { name: "artist_name", label: text("artist_name"), hint: text("artist_name_hint"), autocomplete: "name", longest: 80, form: form.clone() }
            TextField { name: "email", kind: "email", label: text("email"), autocomplete: "username", form: form.clone() }
            TextField { name: "password", kind: "password", label: text("password"), hint: text("password_hint"), autocomplete: "new-password", form: form.clone() }
            button { r#type: "submit", {text("button")} }
        }
    }
}
