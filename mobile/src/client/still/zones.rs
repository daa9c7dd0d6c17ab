//! The zones of the brows that the artist marked: what to leave alone, until when to hope, what is left out.

use dioxus::prelude::*;
use shared_types::{page::zones::ZonesCard, words::Words, zones::Side};

use crate::brow::{
    marks::{MarkedBrows, class},
    zones::Grain,
};

pub fn zones(words: &Words, card: &ZonesCard) -> Element {
    rsx! {
        section { id: "zones", aria_labelledby: "zones-title",
            h2 { id: "zones-title", {words.say("client.zones.title").to_owned()} }
            // As in a mirror: the left brow on the left.
            MarkedBrows { zones: card.marks, on_the_left: Side::Left, label: words.say("client.zones.drawing").to_owned(), grain: Grain::COARSE }
            p { class: "hint", {words.say("client.zones.sides").to_owned()} }
            for (at, note) in card.notes.iter().enumerate() {
                div { key: "{at}", class: "zone-note {class(Some(note.mark))}",
                    h3 { "{note.title}" }
                    p { b { "{note.places}" } " {note.text}" }
                }
            }
        }
    }
}
