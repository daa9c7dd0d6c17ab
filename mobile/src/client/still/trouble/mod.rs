//! The page for when something is not right: all its questions, all its advice and the report's form, as one plain form.
//! A living page shows of it what comes next.

mod advice;
mod drawing;
mod questions;
mod tell;

use dioxus::prelude::*;
use shared_types::words::Words;

pub use advice::{Advising, advice};
pub use questions::{Asking, questions};
pub use tell::{Telling, tell};

/// Short, so that the emergency card's button is on the first screen of a small phone.
pub fn head(words: &Words, path: &str) -> Element {
    rsx! {
        a { class: "back", href: "{path}", {words.say("client.trouble.back_to_page").to_owned()} }
        h1 { {words.say("client.trouble.title").to_owned()} }
    }
}
