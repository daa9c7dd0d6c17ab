//! A face to touch: brow, lid and what lies around the eye, on either side. Each part is a choice with its name under it.

use dioxus::prelude::*;
use shared_types::{page::form::Filled, reaction::Place, words::Words};

/// One part, drawn as on the left of the picture; its twin is the mirror image.
fn part(place: Place) -> Option<&'static str> {
    match place {
        Place::RightBrow | Place::LeftBrow => {
            Some("M96 34C78 18 44 8 14 26l-6 8c28-10 60-10 88 4z")
        }
        Place::RightLid | Place::LeftLid => Some("M10 34c20-32 64-34 84 0-24-14-60-14-84 0z"),
        Place::RightAround | Place::LeftAround => Some(
            "M52 4C24 4 6 18 6 30s18 24 46 24 46-12 46-24S80 4 52 4zm0 12c20 0 34 8 34 14s-14 14-34 14-34-8-34-14 14-14 34-14z",
        ),
        _ => None,
    }
}

pub(super) fn drawing(words: &Words, offered: &[Place], form: &Filled) -> Element {
    let (drawn, named): (Vec<Place>, Vec<Place>) = offered
        .iter()
        .copied()
        .partition(|place| part(*place).is_some());
    rsx! {
        div { class: "face", role: "group", aria_label: words.say("client.tell.drawing").to_owned(),
            for place in drawn {
                {one(words, place, form)}
            }
        }
        for place in named {
            {crate::client::choice::choice("checkbox", "places", place.term(), words.say(&format!("place.{place}")), form.has("places", place.term()), None)}
        }
    }
}

fn one(words: &Words, place: Place, form: &Filled) -> Element {
    let side = if place.is_right() { "right" } else { "left" };
    rsx! {
        label { class: "part {side}",
            input { r#type: "checkbox", name: "places", value: "{place}", "checked": form.has("places", place.term()) }
            svg { view_box: "0 0 104 58", "aria-hidden": "true",
                path { d: part(place).unwrap_or_default(), "fill-rule": "evenodd" }
            }
            span { {words.say(&format!("place.{place}")).to_owned()} }
        }
    }
}
