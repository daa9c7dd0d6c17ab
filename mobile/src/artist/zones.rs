//! The zones of the brows: marking them on a drawing, and showing what was marked.
//!
//! What is sent is a list of radio buttons, zone by zone, which works by itself. Once the screen is alive, a tap on the
//! drawing sets the same buttons: first the mark is chosen, then each zone takes one tap.

use dioxus::prelude::*;
use shared_types::{
    page::{artist::VisitView, form::Filled},
    words::Words,
    zones::{Mark, Place, Side, Zone, Zones, said},
};

use super::{life, use_page};
use crate::{
    brow::{
        marks::{MarkedBrows, Swatch, class, hairs_of},
        shape::{HEIGHT, MIDDLE},
        zones::{Grain, outline, target},
    },
    parts::fault_text,
};

/// As the artist looks at the client: the right brow on the left.
const SIDES: [Side; 2] = [Side::Right, Side::Left];
/// The tail last, so that its target lies over those of the skin beside it.
const DRAWN: [Zone; 6] = [
    Zone::Above,
    Zone::Below,
    Zone::Front,
    Zone::Body,
    Zone::Arch,
    Zone::Tail,
];

fn mark_name(words: &Words, mark: Option<Mark>) -> String {
    match mark {
        Some(mark) => words.say(&format!("mark.{mark}")).to_owned(),
        None => words.say("artist.zones.no_mark").to_owned(),
    }
}

/// The part of the form of a visit.
#[component]
pub(super) fn ZonesField(form: Filled) -> Element {
    let page = use_page();
    let words = &page.words;
    let text = |key: &str| words.say(&format!("artist.zones.{key}")).to_owned();
    let began = Zones::in_form(&form);
    let zones = use_signal(|| began);
    let brush = use_signal(|| Mark::LetItGrow);
    life::use_zones(zones);
    let fault = form.fault("zones").map(str::to_owned);
    rsx! {
        details { class: "more zones", open: !began.is_empty() || fault.is_some(),
            summary { {text("title")} }
            {fault_text("zones", fault.clone())}
            p { class: "hint when-plain", {text("how_plain")} }
            p { class: "hint when-alive", {text("how_alive")} }
            Brush { brush }
            div { class: "faces",
                for side in SIDES {
                    TapBrow { key: "{side}", side, zones, brush }
                }
            }
            p { class: "marked", role: "status",
                for mark in Mark::ALL.iter().copied().filter(|mark| zones.read().with(*mark).count() > 0) {
                    span { key: "{mark}", class: class(Some(mark)),
                        b { {mark_name(words, Some(mark))} }
                        " "
                        {said(words, zones.read().with(mark))}
                    }
                }
            }
            details { class: "zone-list",
                summary { {text("list")} }
                for side in SIDES {
                    ZoneTable { key: "{side}", side, began, zones }
                }
            }
            input { r#type: "hidden", name: "zones_of", value: form.value("zones_of").to_owned() }
        }
    }
}

/// Which mark the next taps set.
#[component]
fn Brush(brush: Signal<Mark>) -> Element {
    let page = use_page();
    let words = &page.words;
    rsx! {
        div { class: "brush when-alive", role: "group", aria_label: words.say("artist.zones.brush"),
            for mark in Mark::ALL.iter().copied() {
                button {
                    key: "{mark}",
                    r#type: "button",
                    class: class(Some(mark)),
                    aria_pressed: if *brush.read() == mark { "true" } else { "false" },
                    onclick: move |_| brush.set(mark),
                    Swatch { mark }
                    span { {mark_name(words, Some(mark))} }
                }
            }
        }
    }
}

/// One brow of the drawing. The list below says the same to whoever cannot see or tap it.
#[component]
fn TapBrow(side: Side, zones: Signal<Zones>, brush: Signal<Mark>) -> Element {
    let page = use_page();
    rsx! {
        div { class: "face",
            p { class: "side", "aria-hidden": "true", {page.words.say(&format!("artist.zones.{side}")).to_owned()} }
            svg { class: "brows taps", view_box: "35 0 {MIDDLE - 200} {HEIGHT}", "aria-hidden": "true",
                g { transform: if side == Side::Left { format!("translate({})scale(-1 1)", MIDDLE - 130) },
                    for zone in DRAWN {
                        TapZone { key: "{zone}", place: Place { side, zone }, zones, brush }
                    }
                }
            }
        }
    }
}

/// A zone that takes the chosen mark when it is tapped; a second tap takes it away.
#[component]
fn TapZone(place: Place, mut zones: Signal<Zones>, brush: Signal<Mark>) -> Element {
    let mark = zones.read().mark(place);
    let hairs = hairs_of(place.zone, mark, Grain::FINE);
    rsx! {
        g { class: "zone {class(mark)}", id: "tap-{place.side}-{place.zone}",
            onclick: move |_| {
                let chosen = *brush.peek();
                let mut marked = *zones.peek();
                let mark = (marked.mark(place) != Some(chosen)).then_some(chosen);
                marked.set(place, mark);
                life::choose(place, mark);
                zones.set(marked);
            },
            path { class: "target", d: target(place.zone) }
            path { class: "shape", d: outline(place.zone, Grain::FINE) }
            path { class: hairs.0, d: hairs.1 }
        }
    }
}

/// The zones of one brow as rows of choices; `began` are the marks that the form came with.
#[component]
fn ZoneTable(side: Side, began: Zones, mut zones: Signal<Zones>) -> Element {
    let page = use_page();
    let words = &page.words;
    let choices = [
        None,
        Some(Mark::LetItGrow),
        Some(Mark::NothingGrows),
        Some(Mark::KeepTidy),
    ];
    rsx! {
        table { class: "choose",
            caption { {words.say(&format!("artist.zones.{side}")).to_owned()} }
            thead {
                tr {
                    td {}
                    for (at, mark) in choices.into_iter().enumerate() {
                        th { key: "{at}", scope: "col", {mark_name(words, mark)} }
                    }
                }
            }
            tbody {
                for place in Zone::ALL.iter().map(|&zone| Place { side, zone }) {
                    tr { key: "{place.zone}",
                        th { scope: "row", {words.say(&format!("zone.{}", place.zone)).to_owned()} }
                        for (at, mark) in choices.into_iter().enumerate() {
                            td { key: "{at}",
                                label {
                                    input {
                                        r#type: "radio",
                                        id: life::radio(place, mark),
                                        name: place.field(),
                                        value: mark.map_or("", Mark::term),
                                        "checked": began.mark(place) == mark,
                                        aria_label: format!("{} {}", said(words, std::iter::once(place)), mark_name(words, mark)),
                                        onchange: move |_| {
                                            let mut marked = *zones.peek();
                                            marked.set(place, mark);
                                            zones.set(marked);
                                        },
                                    }
                                }
                            }
                        }
                    }
                }
            }
        }
    }
}

/// What was marked at a visit: the drawing and the words.
#[component]
pub(super) fn ZonesSeen(visit: VisitView) -> Element {
    let page = use_page();
    let words = &page.words;
    let zones = visit.zones;
    rsx! {
        section { class: "zones-seen",
            h2 { {words.say("artist.zones.title").to_owned()} }
            MarkedBrows { zones, on_the_left: Side::Right, label: words.say("artist.zones.drawing").to_owned(), grain: Grain::FINE }
            p { class: "sides hint", "aria-hidden": "true",
                for side in SIDES {
                    span { key: "{side}", {words.say(&format!("artist.zones.{side}")).to_owned()} }
                }
            }
            ul { class: "marked",
                for mark in Mark::ALL.iter().copied().filter(|mark| zones.with(*mark).count() > 0) {
                    li { key: "{mark}",
                        Swatch { mark }
                        span {
                            b { {mark_name(words, Some(mark))} }
                            " "
                            {said(words, zones.with(mark))}
                        }
                    }
                }
            }
        }
    }
}
