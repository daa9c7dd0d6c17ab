//! Every question with its answers.

use dioxus::prelude::*;
use shared_types::{
    page::form::Filled,
    urgency::{Offer, Question, REST, Rules, Scale},
    words::Words,
};

use crate::client::choice::choice;

/// What the questions are drawn from.
pub struct Asking<'a> {
    pub words: &'a Words,
    pub rules: &'a Rules,
    /// The form that came back.
    pub form: &'a Filled,
    /// Folded away, because what to do stands above already.
    pub answered: bool,
    /// What sentences name: studio, numbers.
    pub values: &'a [(&'a str, &'a str)],
    /// Where a plain form asks what to do.
    pub address: &'a str,
}

pub fn questions(asking: &Asking<'_>) -> Element {
    let words = asking.words;
    let all = rsx! {
        div { id: "asked",
            for question in &asking.rules.questions {
                {ask(asking, question)}
            }
        }
    };
    rsx! {
        p { class: "intro alive-only", {words.say("client.trouble.intro").to_owned()} }
        if asking.answered {
            details { class: "answered",
                summary { class: "plain-only", {words.say("client.trouble.your_answers").to_owned()} }
                {all}
                div { class: "plain-only", {asking.what_now()} }
            }
        } else {
            p { class: "plain-only", {asking.fill("client.trouble.intro_plain")} }
            {all}
            div { class: "plain-only", {asking.what_now()} }
        }
        section { id: "rinse", hidden: true, tabindex: "-1", aria_labelledby: "rinse-title",
            h2 { id: "rinse-title", {words.say("client.trouble.rinse_title").to_owned()} }
            p { class: "lead", {asking.fill("urgency.advice.rinse")} }
            p { {asking.fill("urgency.advice.worse")} }
            p { button { r#type: "button", class: "wide-button", "data-do": "on", {words.say("client.trouble.rinse_go_on").to_owned()} } }
        }
        nav { class: "steps-on alive-only",
            button { r#type: "button", class: "quiet", "data-do": "back", {words.say("client.trouble.back").to_owned()} }
            button { r#type: "button", "data-do": "on", {words.say("client.trouble.go_on").to_owned()} }
        }
    }
}

fn ask(asking: &Asking<'_>, question: &Question) -> Element {
    let Asking { words, form, .. } = *asking;
    let several = question.fields.len() > 1;
    let kind = if several { "checkbox" } else { "radio" };
    let scale = match question.fields.as_slice() {
        [field] => matches!(field.scale(), Scale::UpTo(_)),
        _ => false,
    };
    let offers: Vec<Offer> = question.offers();
    let ends: Vec<String> = offers
        .iter()
        .filter(|_| scale)
        .filter_map(|offer| Some((offer, offer.key.as_ref()?)))
        .filter(|(offer, _)| offer.given.parse::<u8>().is_ok())
        .map(|(offer, key)| format!("{}: {}", offer.given, words.say(key)))
        .collect();
    let asked = asking.fill(&question.key());
    let more = words
        .get(&question.more_key())
        .map(|_| asking.fill(&question.more_key()));
    let more_id = format!("more-{}", question.id);
    let (numbers, rest): (Vec<Offer>, Vec<Offer>) = offers
        .into_iter()
        .partition(|offer| scale && offer.given.parse::<u8>().is_ok());
    let one = |offer: &Offer, label: String| {
        choice(
            kind,
            &question.id,
            &offer.given,
            &label,
            form.has(&question.id, &offer.given),
            None,
        )
    };
    let label = |offer: &Offer| {
        offer
            .key
            .as_ref()
            .map_or_else(|| offer.given.clone(), |key| asking.fill(key))
    };
    rsx! {
        fieldset { id: "ask-{question.id}", class: "ask", tabindex: "-1", aria_describedby: more.as_ref().map(|_| more_id.clone()),
            legend { "{asked}" }
            if let Some(more) = &more {
                ul { id: "{more_id}", class: "more",
                    for line in more.lines() {
                        li { "{line}" }
                    }
                }
            }
            if scale {
                p { class: "hint", {ends.join(" · ")} }
                div { class: "scale",
                    for offer in &numbers {
                        {one(offer, offer.given.clone())}
                    }
                }
            }
            for offer in &rest {
                {one(offer, label(offer))}
            }
            if several {
                input { r#type: "checkbox", name: "{question.id}", value: REST, hidden: true, "checked": form.has(&question.id, REST) }
            }
        }
    }
}

impl Asking<'_> {
    fn fill(&self, key: &str) -> String {
        self.words.fill(key, self.values)
    }

    fn what_now(&self) -> Element {
        rsx! {
            button { r#type: "submit", class: "what-now", formaction: "{self.address}#advice", formenctype: "application/x-www-form-urlencoded", {self.fill("client.trouble.what_now")} }
        }
    }
}
