//! Two brows with their marked zones, drawn hair by hair, each mark told by an outline of its own and not by colour
//! alone.

use std::fmt::Write;

use dioxus::prelude::*;
use shared_types::zones::{Mark, Place, Side, Zone, Zones};

use super::{
    shape::{HEIGHT, WIDTH},
    strokes::hairs,
    zones::{Grain, outline},
};

/// The class of a zone with this mark.
pub fn class(mark: Option<Mark>) -> &'static str {
    match mark {
        None => "plain",
        Some(Mark::LetItGrow) => "grow",
        Some(Mark::NothingGrows) => "bare",
        Some(Mark::KeepTidy) => "tidy",
    }
}

/// The hairs that stand in a zone with this mark: their class and their path, which may be empty.
pub fn hairs_of(zone: Zone, mark: Option<Mark>, grain: Grain) -> (&'static str, String) {
    match mark {
        Some(Mark::NothingGrows) => ("hairs", String::new()),
        Some(Mark::LetItGrow) => ("young", hairs(zone, grain, true)),
        _ => ("hairs", hairs(zone, grain, false)),
    }
}

/// Both brows, standing still: the brow of `on_the_left` on the left of the picture.
#[component]
pub fn MarkedBrows(zones: Zones, on_the_left: Side, label: String, grain: Grain) -> Element {
    let (wide, high) = (WIDTH / grain.unit, HEIGHT / grain.unit);
    rsx! {
        svg {
            // Strokes are as broad as the units of the drawing say.
            class: if grain == Grain::FINE { "brows" } else { "brows coarse" },
            view_box: "{wide / 50} 0 {wide - wide / 25} {high}",
            role: "img",
            "aria-label": label,
            // One piece and not a part for each stroke: nothing in it changes, and parts weigh.
            dangerous_inner_html: drawing(&zones, on_the_left, grain, wide),
        }
    }
}

/// The inside of the picture. Nothing in it comes from outside.
fn drawing(zones: &Zones, on_the_left: Side, grain: Grain, wide: i32) -> String {
    let mut drawing = String::new();
    for &side in Side::ALL {
        let (mut grown, mut young) = (String::new(), String::new());
        drawing.push_str("<g");
        if side != on_the_left {
            let _ = write!(drawing, " transform=\"translate({wide})scale(-1 1)\"");
        }
        drawing.push('>');
        for &zone in Zone::ALL {
            let mark = zones.mark(Place { side, zone });
            if mark.is_some() {
                add(&mut drawing, class(mark), &outline(zone, grain));
            }
            let (class, hairs) = hairs_of(zone, mark, grain);
            let all = if class == "young" {
                &mut young
            } else {
                &mut grown
            };
            all.push_str(&hairs);
        }
        add(&mut drawing, "hairs", &grown);
        add(&mut drawing, "young", &young);
        drawing.push_str("</g>");
    }
    drawing
}

fn add(drawing: &mut String, class: &str, path: &str) {
    if !path.is_empty() {
        let _ = write!(drawing, "<path class=\"{class}\" d=\"{path}\"/>");
    }
}

/// How a mark looks in the drawing, beside its name.
#[component]
pub fn Swatch(mark: Mark) -> Element {
    let hairs = match mark {
        Mark::LetItGrow => "M44 84l-8-26M92 78l-10-26",
        Mark::NothingGrows => "",
        Mark::KeepTidy => "M36 88l-12-58M60 90l-14-62M84 88l-16-60M108 90l-18-60M130 86l-18-56",
    };
    rsx! {
        svg { class: "swatch", view_box: "0 0 150 110", "aria-hidden": "true",
            rect { class: class(Some(mark)), x: "6", y: "6", width: "138", height: "98", rx: "22" }
            path { class: if mark == Mark::LetItGrow { "young" } else { "hairs" }, d: hairs }
        }
    }
}
