//! A face to touch: brow, lid and what lies around the eye, on either side. Each part is a choice with its name under it, and
//! together they are the face.

use dioxus::prelude::*;
use shared_types::{page::form::Filled, reaction::Place, words::Words, zones::Zone};

use crate::brow::{strokes, zones::Grain};

/// One half of the face is this wide, in the units of a coarse brow; its right edge runs down the nose.
const HALF: i32 = 330;

/// A part as it is drawn on the left of the picture; its twin is the mirror image.
struct Part {
    /// The upper edge and the height of its window, which is as wide as half the face.
    top: i32,
    high: i32,
    /// What is filled when it is chosen; may be empty.
    field: &'static str,
    /// Lines over it: their class and their path.
    lines: &'static [(&'static str, &'static str)],
}

const BROW: Part = Part {
    top: 16,
    high: 122,
    field: "M300 62C250 48 190 32 124 28 78 36 42 68 12 100c40-12 76-22 116-18 52 8 110 26 172 42z",
    lines: &[],
};

const LID: Part = Part {
    top: 0,
    high: 112,
    field: "M66 58c34-50 132-58 194-8l-6 20c-60-50-136-46-178 4z",
    lines: &[
        ("iris", "M139 54a27 27 0 1 0 54 2a60 60 0 0 0-54-2z"),
        ("pupil", "M155 62a11 11 0 1 0 22 0a11 11 0 1 0-22 0z"),
        ("crease", "M66 58c34-50 132-58 194-8"),
        ("under", "M254 70c-44 40-134 44-178 4"),
        (
            "lashes",
            "M58 70l18 4c42-50 118-54 178-4l10 2M84 66l-22-10M94 57l-18-15",
        ),
    ],
};

const AROUND: Part = Part {
    top: 0,
    high: 76,
    field: "M40 0c34 62 196 78 254 6-30 90-232 86-254-6z",
    lines: &[("under", "M40 0c34 62 196 78 254 6")],
};

/// Nose and mouth, below both halves: nothing to choose, but without them it is no face.
const BELOW: &str = "M292 6c-12 14 0 26 16 20 8 8 36 8 44 0 16 6 28-6 16-20M250 92c32-12 62-18 80-10 18-8 48-2 80 10M250 92c50 8 110 8 160 0M262 95c38 26 98 26 136 0";

fn part(place: Place) -> Option<&'static Part> {
    match place {
        Place::RightBrow | Place::LeftBrow => Some(&BROW),
        Place::RightLid | Place::LeftLid => Some(&LID),
        Place::RightAround | Place::LeftAround => Some(&AROUND),
        _ => None,
    }
}

pub(super) fn drawing(words: &Words, offered: &[Place], form: &Filled) -> Element {
    let (drawn, named): (Vec<Place>, Vec<Place>) = offered
        .iter()
        .copied()
        .partition(|place| part(*place).is_some());
    rsx! {
        if !drawn.is_empty() {
            div { class: "face", role: "group", aria_label: words.say("client.tell.drawing").to_owned(),
                for place in drawn {
                    {one(words, place, form)}
                }
                svg { class: "below", view_box: "0 0 {2 * HALF} 128", "aria-hidden": "true",
                    path { d: BELOW }
                }
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
            if let Some(part) = part(place) {
                svg { view_box: "0 {part.top} {HALF} {part.high}", "aria-hidden": "true",
                    path { class: "field", d: part.field }
                    for (class, line) in part.lines {
                        path { class: *class, d: *line }
                    }
                    if matches!(place, Place::RightBrow | Place::LeftBrow) {
                        path { class: "brow", d: brow() }
                    }
                }
            }
            span { {words.say(&format!("place.{place}")).to_owned()} }
        }
    }
}

/// A whole brow, hair by hair.
fn brow() -> String {
    let zones = Zone::ALL.iter();
    zones
        .map(|&zone| strokes::hairs(zone, Grain::COARSE, false))
        .collect()
}
