//! When the studio replies to reports, and with which sentences it begins.

use dioxus::prelude::*;
use shared_types::{
    desk::{BEGINNING_LONGEST, BEGINNINGS_MAX},
    page::reports::DeskScreen,
};

use super::{SettingsTop, TextArea, TextField, use_page};

#[component]
pub(super) fn DeskForm(screen: DeskScreen) -> Element {
    let page = use_page();
    let words = &page.words;
    let form = &screen.form;
    let text = |key: &str| words.say(&format!("artist.desk.{key}")).to_owned();
    rsx! {
        form { class: "narrow", method: "post", action: "/studio/reports/replies",
            h1 { {text("title")} }
            p { {text("intro")} }
            SettingsTop { changed: screen.changed.clone(), form: form.clone() }
            h2 { {text("times")} }
            p { class: "hint", {text("times_hint")} }
            for (level, usual) in &screen.levels {
                TextField {
                    key: "{level}",
                    name: "hours_{level}",
                    kind: "number",
                    label: words.say(&format!("artist.level.{level}")).to_owned(),
                    hint: usual.clone(),
                    required: false,
                    longest: 3,
                    form: form.clone(),
                }
            }
            h2 { {text("beginnings")} }
            TextArea {
                name: "beginnings",
                label: text("beginnings_label"),
                hint: text("beginnings_hint"),
                rows: 10,
                longest: BEGINNING_LONGEST * BEGINNINGS_MAX,
                form: form.clone(),
            }
            div { class: "finish",
                button { r#type: "submit", {text("button")} }
            }
            p { class: "onward", a { href: "/studio/reports", {words.say("artist.batches.back").to_owned()} } }
        }
    }
}
