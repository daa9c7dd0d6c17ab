//! What the report's form offers to choose from, with what was chosen when it came back.

use dioxus::prelude::*;
use shared_types::{
    page::form::Filled,
    reaction::{Sign, Since, Trend},
    words::Words,
};

use super::super::report_form::choice;

pub fn signs(words: &Words, form: &Filled) -> Element {
    let all = Sign::ALL.iter().map(|one| one.term());
    choices(words, form, ("checkbox", "signs", "sign"), all)
}

pub fn since(words: &Words, form: &Filled) -> Element {
    let all = Since::ALL.iter().map(|one| one.term());
    choices(words, form, ("radio", "since", "since"), all)
}

pub fn trend(words: &Words, form: &Filled) -> Element {
    let all = Trend::ALL.iter().map(|one| one.term());
    choices(words, form, ("radio", "trend", "trend"), all)
}

/// Of a kind of input, a field, and words below a key.
fn choices(
    words: &Words,
    form: &Filled,
    (kind, field, key): (&str, &str, &str),
    terms: impl Iterator<Item = &'static str>,
) -> Element {
    rsx! {
        for term in terms {
            {choice(kind, field, term, words.say(&format!("{key}.{term}")), form.has(field, term), None)}
        }
    }
}
