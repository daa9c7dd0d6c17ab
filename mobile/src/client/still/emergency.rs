//! The emergency card: static, first, needs no JavaScript, no network, no consent.

use dioxus::prelude::*;
use shared_types::{page::client::EmergencyNumber, words::Words};

/// The card, and the way to the page that says what to do.
pub fn emergency_and_way(words: &Words, number: &EmergencyNumber, path: &str) -> Element {
    rsx! {
        {card(words, number, rsx! {
            h3 { id: "emergency-title", {title(words, number)} }
        })}
        p { {words.say("client.trouble.lead").to_owned()} }
        a { class: "button ask-now", href: "{path}/trouble", {words.say("client.trouble.open").to_owned()} }
    }
}

/// The card by itself, where no heading stands over it but the page's.
pub fn emergency(words: &Words, number: &EmergencyNumber) -> Element {
    card(
        words,
        number,
        rsx! {
            h2 { id: "emergency-title", {title(words, number)} }
        },
    )
}

fn title(words: &Words, number: &EmergencyNumber) -> String {
    words.fill("client.emergency.title", &[("number", &number.text)])
}

/// Rinsing never waits.
pub fn rinse(words: &Words, number: &EmergencyNumber) -> String {
    let minutes = number.rinse_minutes.to_string();
    words.fill("client.emergency.rinse", &[("rinse_minutes", &minutes)])
}

fn card(words: &Words, number: &EmergencyNumber, heading: Element) -> Element {
    rsx! {
        aside { class: "emergency", aria_labelledby: "emergency-title",
            {heading}
            ul {
                li { {words.say("client.emergency.breathing").to_owned()} }
                li { {words.say("client.emergency.faint").to_owned()} }
                li { {words.say("client.emergency.sight").to_owned()} }
            }
            a { class: "call", href: "tel:{number.dial}",
                {words.fill("client.emergency.call", &[("number", &number.dial)])}
            }
            p { {rinse(words, number)} }
        }
    }
}
