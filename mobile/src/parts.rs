//! Small parts that the client's page and the artist's screens share.

use dioxus::prelude::*;

/// The sentence that stands beside a field which needs mending; the field points at it by `fault-NAME`.
#[component]
pub fn FaultText(field: String, sentence: Option<String>) -> Element {
    rsx! {
        if let Some(sentence) = sentence {
            p { class: "fault", id: "fault-{field}", "{sentence}" }
        }
    }
}
