//! Before the treatment: what stands against it, asked about while a visit is recorded, and shown after.

use dioxus::prelude::*;
use shared_types::{
    page::{
        artist::VisitView,
        before::{BeforePart, BeforeView, ConcernLine, PutOffLine, PutOffView},
        form::Filled,
    },
    visit::limits,
};

use super::{Choices, use_page};
use crate::parts::{fault_text, text_area_text};

/// In the form of a visit; folded away as long as nothing stands against it.
#[component]
pub(super) fn BeforeFields(before: BeforePart, form: Filled) -> Element {
    let page = use_page();
    let words = &page.words;
    let text = |key: &str| words.say(&format!("artist.before.{key}")).to_owned();
    let has_lines = !before.lines.is_empty();
    let told = ["decision", "decision_words"];
    let open = has_lines
        || told
            .iter()
            .any(|field| !form.value(field).is_empty() || form.fault(field).is_some());
    let title = if has_lines { "title" } else { "nothing" };
    rsx! {
        input { r#type: "hidden", name: "concerns_seen", value: "{before.seen}" }
        details { id: "before", class: "fold before", open,
            summary { {text(title)} }
            if has_lines {
                p { {text("intro")} }
                {concern_lines(&before.lines)}
                p { class: "hint", {text("local")} }
            }
            Choices { kind: "radio", name: "decision", legend: text("decision"), options: before.decisions.clone(), form: form.clone() }
            p { class: "hint", {text("decision_hint")} }
            div { class: "field",
                label { r#for: "field-decision_words", {text("words")} }
                {fault_text("decision_words", form.fault("decision_words").map(str::to_owned))}
                textarea { id: "field-decision_words", name: "decision_words", rows: "2", maxlength: "{limits::NOTE}", dangerous_inner_html: text_area_text(form.value("decision_words")) }
            }
        }
    }
}

/// The button that asks for the form again with what stands against what is ticked.
#[component]
pub(super) fn LookBefore() -> Element {
    let page = use_page();
    let words = &page.words;
    rsx! {
        div { class: "field",
            p { class: "hint", id: "hint-look-before", {words.say("artist.before.look_hint").to_owned()} }
            input {
                id: "look-before",
                class: "button quiet",
                r#type: "submit",
                name: "look_up",
                formnovalidate: true,
                aria_describedby: "hint-look-before",
                value: words.say("artist.before.look").to_owned(),
            }
        }
    }
}

/// What was kept beside a visit; nothing where nothing was.
#[component]
pub(super) fn BeforeOfVisit(visit: VisitView) -> Element {
    let page = use_page();
    let words = &page.words;
    rsx! {
        if visit.before.is_some() || !visit.put_off.is_empty() {
            section {
                h2 { {words.say("artist.before.title").to_owned()} }
                if let Some(seen) = &visit.before {
                    BeforeSeen { before: seen.clone() }
                }
                {put_off_list(&visit.put_off, words.say("artist.before.kept_earlier"))}
            }
        }
    }
}

#[component]
fn BeforeSeen(before: BeforeView) -> Element {
    let page = use_page();
    let words = &page.words;
    rsx! {
        {concern_lines(&before.lines)}
        if !before.stopped.is_empty() {
            p { "{before.stopped}" }
        }
        p { strong { "{before.decision}" } }
        if !before.words.is_empty() {
            p { class: "note-text", "{before.words}" }
        }
        p { class: "hint",
            "{before.kept} "
            {words.say("artist.before.local").to_owned()}
        }
    }
}

/// What was put off for a client.
pub(super) fn put_off_list(lines: &[PutOffLine], title: &str) -> Element {
    rsx! {
        if !lines.is_empty() {
            p { class: "list-title", "{title}" }
            ul { class: "put-off",
                for line in lines {
                    li { key: "{line.id}", a { href: "/studio/put-off/{line.id}", "{line.text}" } }
                }
            }
        }
    }
}

fn concern_lines(lines: &[ConcernLine]) -> Element {
    rsx! {
        if !lines.is_empty() {
            ul { class: "concerns",
                for (at, line) in lines.iter().enumerate() {
                    li { key: "{at}", class: "{line.weight}",
                        strong { "{line.title}" }
                        span { "{line.sentence}" }
                        if !line.clears.is_empty() {
                            span { "{line.clears}" }
                        }
                        small { "{line.basis}" }
                    }
                }
            }
        }
    }
}

/// A treatment that was put off.
#[component]
pub(super) fn PutOffScreen(put_off: PutOffView) -> Element {
    let page = use_page();
    let words = &page.words;
    let name = [("name", put_off.first_name.as_str())];
    let treatments = words.list(&put_off.treatments);
    let found = [&put_off.findings[..], &put_off.flags[..]].concat();
    let text = |key: &str| words.say(&format!("artist.before.{key}")).to_owned();
    rsx! {
        div { class: "title-line",
            h1 { {words.fill("artist.before.put_off_title", &name)} }
            p { {words.fill("artist.before.put_off_done", &[("treatments", &treatments), ("when", &put_off.at.text)])} }
        }
        section {
            h2 { {text("stood")} }
            if put_off.before.lines.is_empty() {
                p { {text("stood_nothing")} }
            }
            BeforeSeen { before: put_off.before.clone() }
        }
        if !found.is_empty() {
            section {
                h2 { {text("found")} }
                p { {found.join(" · ")} }
            }
        }
        if !put_off.note.is_empty() {
            section {
                h2 { {words.say("artist.visit.note").to_owned()} }
                p { class: "note-text", "{put_off.note}" }
            }
        }
        {put_off_list(&put_off.others, &text("kept_earlier"))}
        p { a { href: "/studio/visits/new?client={put_off.client}", {words.fill("artist.before.again", &name)} } }
    }
}
