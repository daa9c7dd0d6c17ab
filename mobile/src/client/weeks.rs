//! **The weeks between**: how the hair returns, and when to come back.

use dioxus::prelude::*;

use super::{life::Live, still_part, use_page};
use crate::picture::regrowth_figure;

#[component]
pub(super) fn WeeksBetween() -> Element {
    let page = use_page();
    let live = use_context::<Live>();
    let words = &page.words;
    let day = (*live.now.read() - page.finished_at).num_days().max(0) as u32;
    let come_back = page.due.as_ref().map(|due| [due.from_day, due.until_day]);

    rsx! {
        section { id: "weeks", aria_labelledby: "weeks-title",
            h2 { id: "weeks-title", {words.say("client.weeks.title").to_owned()} }
            if let Some(due) = &page.due {
                if day <= u32::from(due.until_day) {
                    p { class: "lead", "{due.to_come}" }
                    p { "{due.why}" }
                } else {
                    p { class: "lead", {words.say("client.weeks.come_back_now").to_owned()} }
                    p { "{due.over}" }
                }
            }
            for (at, figure) in page.figures.iter().enumerate() {
                div { class: "area", key: "{at}",
                    if page.figures.len() > 1 {
                        h3 { "{figure.name}" }
                    }
                    {regrowth_figure(figure, come_back, day, words, &format!("{}/regrowth/{}", page.path, figure.area))}
                    {still_part(page.still.below_figures.get(at).map_or("", String::as_str))}
                }
            }
            {still_part(&page.still.weeks)}
        }
    }
}
