//! Where what was just written is: on this phone, or with the studio. Read out as it changes.

use dioxus::prelude::*;

use super::{
    desk::use_desk,
    errand::Errand,
    life::{Live, Sending},
};

#[component]
pub(super) fn Whereabouts(errand: Errand) -> Element {
    let desk = use_desk();
    let live = use_context::<Live>();
    let say = |what: &str, when: &str| {
        let key = format!("client.sending.{what}");
        desk.words()
            .fill(&key, &[("studio", desk.studio()), ("when", when)])
    };
    let (class, sentence) = match &*live.sending(errand).read() {
        Sending::Nothing => ("", String::new()),
        Sending::Trying => ("kept", say("trying", "")),
        Sending::Kept => ("kept", say("kept", "")),
        Sending::KeptLong => ("kept", say("kept_long", "")),
        Sending::Received(at) => ("received", say("received", &at.text)),
        Sending::Refused(why) => ("refused", why.clone()),
    };
    rsx! {
        div { class: "{errand.whereabouts()} {class}", role: "status", aria_live: "polite",
            if !sentence.is_empty() {
                p { "{sentence}" }
            }
        }
    }
}
