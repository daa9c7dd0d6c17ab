//! What is said of the weeks between, beside the figures that move.

use dioxus::prelude::*;
use shared_types::{
    page::client::{AreaWeeks, Weeks},
    words::Words,
};

use super::{come_back::more, numbers::numbers};

/// What to look for on the way in one area, and its numbers.
pub fn below_figure(words: &Words, area: &AreaWeeks) -> Element {
    rsx! {
        if !area.milestones.is_empty() {
            ul { class: "milestones",
                for (at, one) in area.milestones.iter().enumerate() {
                    li { key: "{at}", span { class: "when", "{one.from}" } " {one.what}" }
                }
            }
        }
        {numbers(words, area)}
    }
}

/// What the forecast rests on and how sure it is, what can wait, and what to do before the next visit.
pub fn weeks(words: &Words, weeks: &Weeks, before_next: &[String]) -> Element {
    rsx! {
        for (at, sentence) in weeks.about.iter().enumerate() {
            p { key: "{at}", "{sentence}" }
        }
        if let Some(back) = &weeks.come_back {
            {more(words, back)}
        }
        if !weeks.confidence.is_empty() {
            p { class: "basis", "{weeks.confidence}" }
        }
        if !before_next.is_empty() {
            h3 { {words.say("client.weeks.before_next").to_owned()} }
            ul { class: "before",
                for (at, sentence) in before_next.iter().enumerate() {
                    li { key: "{at}", "{sentence}" }
                }
            }
        }
    }
}
