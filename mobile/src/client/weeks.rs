//! **The weeks between**: how the hair returns, and when to come back.

use dioxus::prelude::*;
use shared_types::{
    page::client::{AreaWeeks, Shows},
    words::Words,
};

use super::{come_back, life::Live, use_page};
use crate::picture::regrowth_figure;

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
                        {back.said(words, "client.weeks.come_back")}
                    }
                    p { "{back.why}" }
                } else {
                    p { class: "lead", {words.say("client.weeks.come_back_now").to_owned()} }
                    p { {back.said(words, "client.weeks.come_back_was")} }
                }
            }
            for (at, area) in weeks.areas.iter().enumerate() {
                div { class: "area", key: "{at}",
                    if weeks.areas.len() > 1 {
                        h3 { "{area.name}" }
                    }
                    {regrowth_figure(area, weeks.come_back.as_ref(), day, words, &format!("{}/regrowth/{}", page.path, area.area))}
                    if !area.milestones.is_empty() {
                        ul { class: "milestones",
                            for (at, one) in area.milestones.iter().enumerate() {
                                li { key: "{at}", span { class: "when", "{one.from}" } " {one.what}" }
                            }
                        }
                    }
                    {numbers(area, words)}
                }
            }
            for (at, sentence) in weeks.about.iter().enumerate() {
                p { key: "{at}", "{sentence}" }
            }
            if let Some(back) = &weeks.come_back {
                {come_back::more(back, words)}
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

/// The heading of what is kept, beside what returns.
fn kept_key(shows: Shows) -> &'static str {
    match shows {
        Shows::Set => "picture.key.set",
        Shows::Colour | Shows::Returning => "picture.key.colour",
    }
}

/// The strip as a table, for those who want figures and for those who cannot see the drawing.
fn numbers(area: &AreaWeeks, words: &Words) -> Element {
    let returning = area.shows == Shows::Returning;
    let kept = area.weeks.iter().any(|week| week.kept > 0);
    rsx! {
        details {
            summary { {words.say("client.weeks.numbers").to_owned()} }
            table {
                caption { {words.say(if returning { "client.weeks.caption" } else { "client.weeks.caption_kept" }).to_owned()} }
                thead {
                    tr {
                        th { scope: "col", {words.say("client.weeks.week").to_owned()} }
                        if returning {
                            th { scope: "col", {words.say("picture.key.visible").to_owned()} }
                            th { scope: "col", {words.say("picture.key.graspable").to_owned()} }
                        }
                        if kept {
                            th { scope: "col", {words.say(kept_key(area.shows)).to_owned()} }
                        }
                    }
                }
                tbody {
                    for week in &area.weeks {
                        tr { key: "{week.week}",
                            th { scope: "row", "{week.week}" }
                            if returning {
                                td { {of_hundred(week.visible)} }
                                td { {of_hundred(week.graspable)} }
                            }
                            if kept {
                                td { {of_hundred(week.kept)} }
                            }
                        }
                    }
                }
            }
        }
    }
}
