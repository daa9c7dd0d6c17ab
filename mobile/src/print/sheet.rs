//! A sheet of A4: everything that the client was told, for their hand and for a file.

use dioxus::prelude::*;

use super::{
    Printed,
    parts::{cautions, code, how},
    size,
};
use crate::client::still::rinse;

pub fn sheet(printed: &Printed<'_>) -> Element {
    let words = printed.words;
    let say = |key: &str| words.say(&format!("print.{key}")).to_owned();
    let studio = printed.studio;
    let done = words.list(printed.done);
    let number = studio.emergency.text.as_str();
    let contact: Vec<&str> = [studio.phone.as_str(), studio.email.as_str()]
        .into_iter()
        .filter(|way| !way.is_empty())
        .collect();
    rsx! {
        {how(printed)}
        main { class: size::sheet(printed),
            header {
                div {
                    p { class: "studio", "{studio.name}" }
                    h1 { {words.fill("print.for", &[("name", printed.first_name)])} }
                    p { class: "done", {words.fill("print.done", &[("done", &done), ("when", printed.finished)])} }
                }
                {code(printed)}
            }
            aside {
                h2 { {words.fill("client.emergency.title", &[("number", number)])} }
                ul {
                    li { {words.say("client.emergency.breathing").to_owned()} }
                    li { {words.say("client.emergency.faint").to_owned()} }
                    li { {words.say("client.emergency.sight").to_owned()} }
                }
                p { {rinse(words, &studio.emergency)} }
            }
            div { class: "columns",
                if !printed.cautions.is_empty() {
                    section {
                        h2 { {say("avoid")} }
                        {cautions(printed)}
                    }
                }
                for list in printed.after {
                    section { key: "{list.title}",
                        h2 { "{list.title}" }
                        ul {
                            for line in &list.lines {
                                li { "{line}" }
                            }
                        }
                    }
                }
                if let Some(due) = printed.due {
                    section {
                        h2 { {say("come_back")} }
                        p { b { "{due.to_come}" } " {due.why}" }
                        for sentence in printed.more {
                            p { key: "{sentence}", "{sentence}" }
                        }
                    }
                }
                if !printed.before_next.is_empty() {
                    section {
                        h2 { {say("before_next")} }
                        ul {
                            for sentence in printed.before_next {
                                li { key: "{sentence}", "{sentence}" }
                            }
                        }
                    }
                }
                if let Some(zones) = printed.zones {
                    section {
                        h2 { {say("zones")} }
                        for note in &zones.notes {
                            p { b { "{note.title}" } " {note.places} {note.text}" }
                        }
                    }
                }
            }
            footer {
                p { b { {words.fill("print.ask", &[("artist", &studio.artist), ("studio", &studio.name)])} } " {contact.join(\" · \")}" }
                p { {say("label_first")} }
                if !printed.url.is_empty() {
                    p { class: "url", "{printed.url}" }
                }
                p { class: "kept", "{printed.kept}" }
            }
        }
    }
}
