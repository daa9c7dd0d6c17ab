//! The report itself: where, in words, photos, how to be reached, and what may be done with it.

use dioxus::prelude::*;
use shared_types::{
    page::form::Filled,
    photos::PHOTOS_MAX,
    reaction::{Place, Purpose, REACH_MAX, WORDS_MAX},
    words::Words,
};

use super::drawing::drawing;
use crate::{client::choice::choice, parts::text_area_text};

/// What the form is drawn from.
pub struct Telling<'a> {
    pub words: &'a Words,
    pub places: &'a [Place],
    pub form: &'a Filled,
    pub consent_version: &'a str,
    pub values: &'a [(&'a str, &'a str)],
}

pub fn tell(telling: &Telling<'_>) -> Element {
    let Telling { words, form, .. } = *telling;
    let say = |key: &str| words.fill(key, telling.values);
    let version = telling.consent_version;
    rsx! {
        h2 { id: "tell-title", {say("client.tell.title")} }
        p { {say("client.tell.intro")} }
        div { id: "also" }
        fieldset { class: "places",
            legend { {say("client.tell.places")} }
            {drawing(words, telling.places, form)}
        }
        div { class: "field",
            label { r#for: "report-words", {say("client.tell.words")} }
            textarea { id: "report-words", name: "words", rows: "4", maxlength: "{WORDS_MAX}", dangerous_inner_html: text_area_text(form.value("words")) }
        }
        div { class: "field photos",
            label { r#for: "report-photos", {say("client.tell.photos")} }
            p { class: "hint", id: "hint-photos", {words.fill("client.tell.photos_hint", &[("n", &PHOTOS_MAX.to_string()), telling.studio()])} }
            input { id: "report-photos", r#type: "file", name: "photos", multiple: true, accept: "image/jpeg,image/png,image/webp", aria_describedby: "hint-photos",
                "data-kept": say("client.tell.photo_kept"), "data-remove": say("client.tell.photo_remove"),
                "data-sending": say("client.tell.photo_sending"), "data-sent": say("client.tell.photo_sent"),
                "data-too_many": say("client.tell.photo_too_many"), "data-unreadable": say("client.tell.photo_unreadable"),
                "data-too_heavy": say("client.tell.photo_too_heavy"), "data-no_room": say("client.tell.photo_no_room"),
            }
            div { role: "status",
                ul { id: "photos-chosen", class: "pictures" }
            }
        }
        div { class: "field",
            label { r#for: "report-reach", {say("client.tell.reach")} }
            p { class: "hint", id: "hint-reach", {say("client.tell.reach_hint")} }
            input { id: "report-reach", r#type: "text", name: "reach", autocomplete: "tel", maxlength: "{REACH_MAX}", aria_describedby: "hint-reach", "value": form.value("reach") }
        }
        fieldset { class: "consent",
            legend { {say("client.tell.agree")} }
            for (field, key) in Purpose::ALL.iter().map(|one| (one.field(), format!("consent.{one}"))) {
                {choice("checkbox", field, version, &say(&key), form.has(field, version), None)}
            }
        }
    }
}

impl Telling<'_> {
    fn studio(&self) -> (&str, &str) {
        let studio = self.values.iter().find(|(name, _)| *name == "studio");
        studio.copied().unwrap_or(("studio", ""))
    }
}
