//! **Your dates**: one to look one's best for, planned back from, and the way into a calendar. Plain forms and links.

use dioxus::prelude::*;
use shared_types::words::Words;

use crate::parts::fault_text;

/// What is drawn, in words throughout.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Dates {
    /// "For Saturday 12 December"; empty while no date is given.
    pub title: String,
    /// When to come, then whatever else is to be said of it.
    pub said: Vec<String>,
    /// What to do or to leave, in order.
    pub steps: Vec<Step>,
    /// The date in the form, as it was typed: YYYY-MM-DD.
    pub typed: String,
    /// The sentence beside it, when it needs mending.
    pub fault: Option<String>,
    /// The address that writes the next visit into a calendar on the web; empty when nothing is left for a calendar.
    pub calendar_web: String,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Step {
    /// "From Wednesday 2 December".
    pub when: String,
    pub what: String,
}

/// The section. `path` is the page's own.
pub fn dates(words: &Words, dates: &Dates, path: &str) -> Element {
    let is_given = !dates.title.is_empty();
    let say = |key: &str| words.say(&format!("dates.{key}")).to_owned();
    rsx! {
        section { id: "dates", aria_labelledby: "dates-title",
            h2 { id: "dates-title", {say("title")} }
            if is_given {
                h3 { "{dates.title}" }
                for (at, sentence) in dates.said.iter().enumerate() {
                    p { key: "{at}", class: if at == 0 { "lead" }, "{sentence}" }
                }
                if !dates.steps.is_empty() {
                    dl { class: "steps",
                        for (at, step) in dates.steps.iter().enumerate() {
                            div { key: "{at}",
                                dt { "{step.when}" }
                                dd { "{step.what}" }
                            }
                        }
                    }
                }
            }
            details { "open": dates.fault.is_some(),
                summary { {say(if is_given { "change" } else { "ask" })} }
                form { method: "post", action: "{path}/occasion", "novalidate": true,
                    div { class: "field",
                        label { r#for: "date", {say("label")} }
                        p { class: "hint", id: "hint-date", {say("hint")} }
                        {fault_text("date", dates.fault.clone())}
                        input { id: "date", r#type: "date", name: "date", aria_describedby: if dates.fault.is_some() { "hint-date fault-date" } else { "hint-date" }, "value": dates.typed.clone() }
                    }
                    button { r#type: "submit", {say("save")} }
                    if is_given {
                        button { r#type: "submit", name: "remove", value: "yes", class: "quiet", {say("remove")} }
                    }
                }
            }
            if !dates.calendar_web.is_empty() {
                p { class: "contact",
                    a { href: "{path}/calendar", {say("calendar")} }
                    a { href: "{dates.calendar_web}", rel: "noreferrer", {say("calendar_web")} }
                }
                p { class: "hint", {say("calendar_hint")} }
            }
        }
    }
}
