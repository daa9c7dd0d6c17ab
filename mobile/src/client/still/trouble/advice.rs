//! What to do now. Everything that the rules can advise stands here; what holds is shown, the rest is hidden.

use dioxus::prelude::*;
use shared_types::{
    page::client::StudioCard,
    urgency::{AdviceRule, Level, Rules, Verdict},
    words::Words,
};

/// The sentence that says nothing but whom to call: it is the button that calls.
const CALL_NOW: &str = "call_now";

/// What the advice is drawn from.
pub struct Advising<'a> {
    pub words: &'a Words,
    pub rules: &'a Rules,
    /// As a plain form was answered.
    pub verdict: Option<&'a Verdict<'a>>,
    pub card: &'a StudioCard,
    pub values: &'a [(&'a str, &'a str)],
    /// The client's page, where the answer will stand.
    pub path: &'a str,
    /// When the studio replies, by level.
    pub replies: &'a [(Level, String)],
}

pub fn advice(advising: &Advising<'_>) -> Element {
    let Advising {
        words,
        card,
        values,
        ..
    } = *advising;
    let holds = |level: Level| {
        advising
            .verdict
            .is_some_and(|verdict| verdict.level == level)
    };
    let told = |id: &str| {
        advising
            .verdict
            .is_some_and(|verdict| verdict.advice.contains(&id))
    };
    let say = |key: &str| words.fill(key, values);
    let dial = &card.emergency.dial;
    let call = words.fill("client.trouble.call_emergency", &[("number", dial)]);
    let item = |rule: &AdviceRule| {
        let (id, sentence) = (rule.id.as_str(), say(&rule.key()));
        let calls = words.say(&rule.key()).contains("{number}");
        rsx! {
            li { "data-advice": "{id}", hidden: !told(id),
                if id == CALL_NOW {
                    a { class: "call", href: "tel:{dial}", "{sentence}" }
                } else {
                    "{sentence}"
                    if calls {
                        a { class: "call", href: "tel:{dial}", "{call}" }
                    }
                }
            }
        }
    };
    rsx! {
        section { id: "advice", class: "advice", tabindex: "-1", aria_labelledby: "advice-title", hidden: advising.verdict.is_none(),
            h2 { id: "advice-title", {say("client.trouble.advice_title")} }
            for level in Level::ALL.iter().rev().copied() {
                h3 { class: "level", "data-level": "{level}", hidden: !holds(level), {say(&level.key())} }
            }
            ul { class: "do",
                for rule in &advising.rules.advice {
                    {item(rule)}
                }
            }
            h3 { {say("client.trouble.who")} }
            p { class: "contact",
                if !card.phone.is_empty() {
                    a { href: "tel:{card.phone.replace(' ', \"\")}", {say("client.trouble.call_studio")} }
                }
                if !card.email.is_empty() {
                    a { href: "mailto:{card.email}", "{card.email}" }
                }
                a { class: "call-emergency", href: "tel:{dial}", "{call}" }
            }
            for (level, reply) in advising.replies {
                p { class: "basis", "data-level": "{level}", hidden: !holds(*level), "{reply}" }
            }
            p { class: "alive-only",
                button { r#type: "button", class: "quiet", "data-do": "back", {say("client.trouble.change")} }
            }
        }
        section { class: "what-next",
            h2 { {say("client.trouble.next_title")} }
            p { {say("client.trouble.next")} }
            p { a { class: "back", href: "{advising.path}", {say("client.trouble.back_to_page")} } }
        }
    }
}
