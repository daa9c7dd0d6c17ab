//! What became of a report: every note, and the form for one more.

use dioxus::prelude::*;
use shared_types::{
    outcome::NOTE_MAX,
    page::{form::Filled, reports::OutcomePart},
};

use super::super::{Choices, Csrf, TextArea, TextField, WholeFault, use_page};

#[component]
pub(super) fn OutcomeSection(address: String, part: OutcomePart) -> Element {
    let page = use_page();
    let words = &page.words;
    let text = |key: &str| words.say(&format!("artist.outcome.{key}")).to_owned();
    let (latest, earlier) = match part.noted.split_first() {
        Some((latest, earlier)) => (Some(latest), earlier),
        None => (None, &[][..]),
    };
    rsx! {
        section { class: "outcome",
            h2 { {text("title")} }
            match latest {
                Some(line) => rsx! {
                    p { class: "by", "{line.by}" }
                    {facts(&line.facts)}
                },
                None => rsx! {
                    p { class: "hint", {text("none")} }
                },
            }
            if !part.due.is_empty() {
                p { class: "due-on", "{part.due}" }
            }
            if !earlier.is_empty() {
                details {
                    summary { {text("earlier")} }
                    for (at, line) in earlier.iter().enumerate() {
                        div { key: "{at}", class: "earlier",
                            p { class: "by", "{line.by}" }
                            {facts(&line.facts)}
                        }
                    }
                }
            }
            details { class: "fold", open: part.form.is_faulty(),
                summary { {text(if latest.is_some() { "note_again" } else { "note" })} }
                OutcomeForm { address: address.clone(), part: part.clone() }
            }
            p {
                a { class: "button quiet", href: "{address}/case", {words.say("artist.work.case").to_owned()} }
            }
        }
    }
}

fn facts(facts: &[(String, String)]) -> Element {
    rsx! {
        dl {
            for (at, (name, text)) in facts.iter().enumerate() {
                dt { key: "{at}", "{name}" }
                dd { class: "note-text", "{text}" }
            }
        }
    }
}

#[component]
fn OutcomeForm(address: String, part: OutcomePart) -> Element {
    let page = use_page();
    let words = &page.words;
    let form = &part.form;
    let text = |key: &str| words.say(&format!("artist.outcome.{key}")).to_owned();
    let yes_no = ["yes", "no"].map(|term| {
        let key = format!("urgency.answer.{term}");
        (term.to_owned(), words.say(&key).to_owned())
    });
    let area = |name: &str, form: &Filled| {
        rsx! {
            TextArea { name, label: text(name), longest: NOTE_MAX, rows: 2, form: form.clone() }
        }
    };
    rsx! {
        form { method: "post", action: "{address}/outcome",
            Csrf {}
            WholeFault { form: form.clone() }
            input { r#type: "hidden", name: "beside", value: "{form.value(\"beside\")}" }
            {area("advised", form)}
            {area("done", form)}
            Choices { kind: "radio", name: "ended", legend: text("ended"), options: part.endings.clone(), form: form.clone() }
            Choices { kind: "checkbox", name: "serious", legend: text("serious"), options: part.serious.clone(), form: form.clone() }
            p { class: "hint", {text("serious_hint")} }
            for (at, sentence) in part.law.iter().enumerate() {
                p { class: "hint", key: "{at}", "{sentence}" }
            }
            TextField { name: "aware_on", kind: "date", label: text("aware_on"), hint: text("aware_hint"), required: false, form: form.clone() }
            details { class: "fold", open: ["diagnosis", "tests", "other_explanations", "re_exposure", "medically_confirmed"].iter().any(|field| !form.value(field).is_empty() || form.fault(field).is_some()),
                summary { {text("for_supplier")} }
                Choices { kind: "radio", name: "medically_confirmed", legend: text("confirmed"), options: yes_no.to_vec(), form: form.clone() }
                TextArea { name: "diagnosis", label: text("diagnosis"), hint: text("diagnosis_hint"), rows: 2, longest: NOTE_MAX, form: form.clone() }
                Choices { kind: "radio", name: "re_exposure", legend: text("re_exposure"), options: part.re_exposure.clone(), form: form.clone() }
                {area("tests", form)}
                {area("other_explanations", form)}
            }
            button { r#type: "submit", {text("button")} }
        }
    }
}
