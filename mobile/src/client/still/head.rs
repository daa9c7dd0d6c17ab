//! Whose page it is, what was done, and the ways into it.

use dioxus::prelude::*;
use shared_types::words::Words;

/// The inside of the page's header. `done` is what was done, as the client would call it, `when` the end of the visit.
pub fn head(
    words: &Words,
    studio: &str,
    first_name: &str,
    done: &[String],
    when: &str,
    path: &str,
) -> Element {
    let done = words.list(done);
    rsx! {
        p { class: "studio", "{studio}" }
        h1 { {words.fill("client.head.for", &[("name", first_name)])} }
        p { class: "done", {words.fill("client.head.done", &[("done", &done), ("when", when)])} }
        nav { class: "paths", aria_label: words.say("client.head.paths"),
            a { href: "#now", {words.say("client.now.short").to_owned()} }
            a { href: "#weeks", {words.say("client.weeks.short").to_owned()} }
            a { class: "worry", href: "{path}/trouble", {words.say("client.trouble.short").to_owned()} }
        }
    }
}
