//! **The weeks between**: how the hair returns, and when to come back.

use dioxus::prelude::*;
use shared_types::page::client::Weeks;

use super::{
    come_back::ComeBackMore,
    life::Live,
    meadow::{self, HEIGHT, LEAN, SKIN, WIDTH},
    use_page,
};

/// Thousandths as "of a hundred", rounded.
fn of_hundred(thousandths: u16) -> String {
    ((thousandths + 5) / 10).to_string()
}

#[component]
pub(super) fn WeeksBetween() -> Element {
    let page = use_page();
    let live = use_context::<Live>();
    let words = &page.words;
    let Some(weeks) = &page.weeks else {
        return rsx! {};
    };
    let day = (*live.now.read() - page.finished.at).num_days().max(0) as u32;

    rsx! {
        section { id: "weeks", aria_labelledby: "weeks-title",
            h2 { id: "weeks-title", {words.say("client.weeks.title").to_owned()} }
            if let Some(back) = &weeks.come_back {
                if day <= u32::from(back.until_day) {
                    p { class: "lead",
                        {words.fill("client.weeks.come_back", &[("from", &back.from), ("until", &back.until)])}
                    }
                    p { "{back.why}" }
                } else {
                    p { class: "lead", {words.say("client.weeks.come_back_now").to_owned()} }
                    p { {words.fill("client.weeks.come_back_was", &[("from", &back.from), ("until", &back.until)])} }
                }
                ComeBackMore { back: back.clone() }
            }
            for (at, sentence) in weeks.about.iter().enumerate() {
                p { key: "{at}", "{sentence}" }
            }
            if !weeks.weeks.is_empty() {
                Strip { weeks: weeks.clone(), day }
                Numbers { weeks: weeks.clone() }
            }
            if !weeks.confidence.is_empty() {
                p { class: "basis", "{weeks.confidence}" }
            }
            if !page.before_next.is_empty() {
                h3 { {words.say("client.weeks.before_next").to_owned()} }
                ul { class: "before",
                    for (at, sentence) in page.before_next.iter().enumerate() {
                        li { key: "{at}", "{sentence}" }
                    }
                }
            }
        }
    }
}

/// The strip as a table, for those who want figures and for those who cannot see the drawing.
#[component]
fn Numbers(weeks: Weeks) -> Element {
    let page = use_page();
    let words = &page.words;
    rsx! {
        details {
            summary { {words.say("client.weeks.numbers").to_owned()} }
            table {
                caption { {words.say("client.weeks.caption").to_owned()} }
                thead {
                    tr {
                        th { scope: "col", {words.say("client.weeks.week").to_owned()} }
                        th { scope: "col", {words.say("client.weeks.visible").to_owned()} }
                        th { scope: "col", {words.say("client.weeks.graspable").to_owned()} }
                    }
                }
                tbody {
                    for week in &weeks.weeks {
                        tr { key: "{week.week}",
                            th { scope: "row", "{week.week}" }
                            td { {words.fill("client.weeks.of_hundred", &[("n", &of_hundred(week.visible))])} }
                            td { {words.fill("client.weeks.of_hundred", &[("n", &of_hundred(week.graspable))])} }
                        }
                    }
                }
            }
        }
    }
}

/// The drawing, with the weeks under it, today's mark, and the time to come back.
#[component]
fn Strip(weeks: Weeks, day: u32) -> Element {
    let page = use_page();
    let words = &page.words;
    let drawing = meadow::draw(&weeks.weeks);
    let last = weeks.weeks.last().map_or(0, |week| u32::from(week.week));
    let today = meadow::x_of_day(&weeks.weeks, day);
    let band = weeks.come_back.as_ref().map(|back| {
        let from = meadow::x_of_day(&weeks.weeks, u32::from(back.from_day));
        (
            from,
            meadow::x_of_day(&weeks.weeks, u32::from(back.until_day))
                .saturating_sub(from)
                .max(6),
        )
    });

    rsx! {
        figure { class: "strip",
            svg { view_box: "0 0 {WIDTH + LEAN} {HEIGHT + 24}", role: "img", "aria-label": words.say("client.weeks.drawing"),
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
                        x: "{meadow::x_of_day(&weeks.weeks, week * 7).min(WIDTH - 12)}",
                        y: "{SKIN + 32}",
                        text_anchor: "middle",
                        "{week}"
                    }
                }
                text { class: "unit", x: "2", y: "{SKIN + 32}", {words.say("client.weeks.unit").to_owned()} }
                if day <= last * 7 {
                    path { class: "today", d: "M{today.clamp(2, WIDTH - 2)} 4v{SKIN + 6}" }
                }
            }
            figcaption {
                span { class: "key long", {words.say("client.weeks.graspable").to_owned()} }
                span { class: "key short", {words.say("client.weeks.visible").to_owned()} }
                if band.is_some() {
                    span { class: "key band", {words.say("client.weeks.band").to_owned()} }
                }
                if day <= last * 7 {
                    span { class: "key today", {words.count("client.weeks.today", i64::from(day))} }
                }
            }
        }
    }
}
