//! The card to take home, 74 × 105 mm (A7): the code, what to avoid, and the number for an emergency.

use dioxus::prelude::*;

use super::{
    Printed,
    parts::{cautions, code, how},
    size,
};

pub fn card(printed: &Printed<'_>) -> Element {
    let words = printed.words;
    let studio = printed.studio;
    let done = words.list(printed.done);
    let number = [("number", studio.emergency.text.as_str())];
    rsx! {
        {how(printed)}
        main { class: size::card(printed),
            header {
                {code(printed)}
                div {
                    p { class: "studio", "{studio.name}" }
                    h1 { {words.fill("print.for", &[("name", printed.first_name)])} }
                    p { class: "done", {words.fill("print.done", &[("done", &done), ("when", printed.finished)])} }
                    if !studio.phone.is_empty() {
                        p { "{studio.phone}" }
                    }
                }
            }
            {cautions(printed)}
            aside {
                p { b { {words.fill("print.card_call", &number)} } }
                p { {words.say("print.card_rinse").to_owned()} }
            }
        }
    }
}
