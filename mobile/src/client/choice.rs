//! A large answer: the whole line is its target.

use dioxus::prelude::*;

pub fn choice(
    kind: &str,
    name: &str,
    value: &str,
    label: &str,
    chosen: bool,
    told_by: Option<&'static str>,
) -> Element {
    rsx! {
        label { class: "choice",
            input { r#type: "{kind}", name: "{name}", value: "{value}", "checked": chosen, aria_describedby: told_by }
            span { "{label}" }
        }
    }
}
