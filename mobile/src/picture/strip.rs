//! The strip of weeks under the picture: how much is back in each, the time to come back, and today.

use dioxus::prelude::*;
use shared_types::{
    page::client::{Figure, Shows},
    words::Words,
};

use super::meadow::{self, HEIGHT, LEAN, SKIN, WIDTH};

/// The strip as a drawing. A screen reader has the table instead.
pub(super) fn strip(
    figure: &Figure,
    come_back: Option<[u16; 2]>,
    today: u32,
    words: &Words,
) -> Element {
    let x_of = |day: u32| meadow::x_of_day(&figure.weeks, day);
    let drawing = meadow::draw(figure);
    let last = figure.weeks.last().map_or(0, |week| u32::from(week.week));
    let band = come_back.map(|[from, until]| {
        let from = x_of(from.into());
        (from, x_of(until.into()).saturating_sub(from).max(6))
    });
    rsx! {
        svg { class: "strip", view_box: "0 0 {WIDTH + LEAN} {HEIGHT + 24}", role: "img", "aria-label": words.say("picture.drawing"),
            if let Some((x, width)) = band {
                rect { class: "band", x: "{x}", y: "0", width: "{width}", height: "{SKIN + 6}", rx: "8" }
            }
            path { class: "empty", d: "{drawing.empty}" }
            path { class: "short", d: "{drawing.short}" }
            path { class: "long", d: "{drawing.long}" }
            path { class: "skin", d: "M0 {SKIN + 2}h{WIDTH}" }
            for week in (2..=last).step_by(2) {
                text {
                    key: "{week}",
                    x: "{x_of(week * 7).min(WIDTH - 12)}",
                    y: "{SKIN + 32}",
                    text_anchor: "middle",
                    "{week}"
                }
            }
            text { class: "unit", x: "2", y: "{SKIN + 32}", {words.say("picture.unit").to_owned()} }
            if today <= last * 7 {
                path { class: "today", d: "M{x_of(today).clamp(2, WIDTH - 2)} 4v{SKIN + 6}" }
            }
        }
    }
}

/// What the strip's marks mean.
pub(super) fn key(
    figure: &Figure,
    come_back: Option<[u16; 2]>,
    today: u32,
    words: &Words,
) -> Element {
    let last = figure.weeks.last().map_or(0, |week| u32::from(week.week));
    let (long, short) = match figure.shows {
        Shows::Returning => ("picture.key.graspable", "picture.key.visible"),
        Shows::Colour => ("picture.key.colour", "picture.key.grown_out"),
        Shows::Set => ("picture.key.set", "picture.key.grown_out"),
    };
    rsx! {
        figcaption {
            span { class: "key long", {words.say(long).to_owned()} }
            span { class: "key short", {words.say(short).to_owned()} }
            if come_back.is_some() {
                span { class: "key band", {words.say("picture.key.band").to_owned()} }
            }
            if today <= last * 7 {
                span { class: "key today", {words.count("picture.today", i64::from(today))} }
            }
        }
    }
}
