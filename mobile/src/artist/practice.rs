//! How the studio works: its own intervals, closed days, and what it aims at.

use dioxus::prelude::*;
use shared_types::page::{
    artist::{OwnIntervalLine, PracticeScreen},
    form::Filled,
};

use super::{Choices, SettingsTop, TextField, use_page};
use crate::parts::fault_text;

const BOUNDS: [&str; 3] = ["earliest", "best", "latest"];

#[component]
pub(super) fn PracticeForm(screen: PracticeScreen) -> Element {
    let page = use_page();
    let words = &page.words;
    let form = &screen.form;
    let text = |key: &str| words.say(&format!("artist.practice.{key}")).to_owned();
    rsx! {
        form { class: "practice", method: "post", action: "/studio/practice",
            h1 { {text("title")} }
            p { {text("intro")} }
            SettingsTop { changed: screen.changed.clone(), form: form.clone() }
            div { class: "two",
                Choices { kind: "radio", name: "prefers", legend: text("aims"), options: screen.aims.clone(), form: form.clone() }
                div {
                    Choices { kind: "checkbox", name: "closed", legend: text("closed"), options: screen.weekdays.clone(), form: form.clone() }
                    p { class: "hint", {text("closed_hint")} }
                }
            }
            section {
                h2 { {text("own")} }
                p { class: "hint", {text("own_hint")} }
                for line in &screen.treatments {
                    OwnTimes { key: "{line.term}", line: line.clone(), form: form.clone() }
                }
            }
            section {
                h2 { {text("patch_title")} }
                TextField { name: "patch_test_days", kind: "number", label: text("patch_days"), hint: screen.patch_days_hint.clone(), required: false, longest: 4, form: form.clone() }
            }
            div { class: "finish",
                button { r#type: "submit", {text("button")} }
            }
        }
        section { class: "onward",
            h2 { {words.say("artist.cautions.title").to_owned()} }
            p { {words.say("artist.cautions.link_hint").to_owned()} }
            p { a { href: "/studio/cautions", {words.say("artist.cautions.link").to_owned()} } }
        }
        section { class: "onward",
            h2 { {words.say("artist.notices.title").to_owned()} }
            p { {words.say("artist.notices.link_hint").to_owned()} }
            p { a { href: "/studio/notices", {words.say("artist.notices.link").to_owned()} } }
        }
        section { class: "onward",
            h2 { {text("details")} }
            p { {text("details_hint")} }
            p { a { href: "/studio/particulars", {text("details_link")} } }
        }
    }
}

/// One treatment, folded away as long as nothing is set for it.
#[component]
fn OwnTimes(line: OwnIntervalLine, form: Filled) -> Element {
    let page = use_page();
    let words = &page.words;
    let text = |key: &str| words.say(&format!("artist.practice.{key}")).to_owned();
    let OwnIntervalLine {
        term,
        name,
        usual,
        ask_sooner,
    } = &line;
    let fields = BOUNDS.map(|bound| format!("{bound}_{term}"));
    let unit = format!("unit_{term}");
    let sooner = format!("sooner_{term}");
    let is_set = fields.iter().any(|field| !form.value(field).is_empty());
    let sooner_fault = form.fault(&sooner).map(str::to_owned);
    let means_it = form.has(&sooner, "yes");
    rsx! {
        details { class: "own", open: is_set,
            summary {
                span { "{name}" }
                if is_set {
                    small { {text("yours")} }
                }
            }
            p { class: "hint", "{usual}" }
            fieldset { aria_label: "{name}",
                div { class: "quarters",
                    for (field, bound) in fields.iter().zip(BOUNDS) {
                        TextField { key: "{field}", name: field.clone(), kind: "number", label: text(bound), required: false, longest: 4, form: form.clone() }
                    }
                    div { class: "field",
                        label { r#for: "field-{unit}", {text("unit")} }
                        {fault_text(&unit, form.fault(&unit).map(str::to_owned))}
                        select { id: "field-{unit}", name: "{unit}",
                            for choice in ["weeks", "days"] {
                                option { key: "{choice}", value: "{choice}", selected: form.value(&unit) == choice, {text(choice)} }
                            }
                        }
                    }
                }
                if sooner_fault.is_some() || means_it {
                    {fault_text(&sooner, sooner_fault)}
                    label { class: "choice",
                        input { r#type: "checkbox", name: "{sooner}", value: "yes", "checked": means_it }
                        span { "{ask_sooner}" }
                    }
                }
            }
        }
    }
}
