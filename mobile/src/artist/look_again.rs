//! What has come back of the hair removed earlier: asked while a visit is recorded, and shown beside the forecast after.

use dioxus::prelude::*;
use shared_types::page::{
    artist::{AreaToLookAt, LookAgain, VisitView},
    form::Filled,
};

use super::{Choices, TextField, use_page};
use crate::{parts::fault_text, picture::regrowth_figure};

/// For each area with an earlier removal: what the forecast expects today, and the question what is seen.
#[component]
pub(super) fn LookAgainPart(look: LookAgain, form: Filled) -> Element {
    let page = use_page();
    let words = &page.words;
    rsx! {
        input { r#type: "hidden", name: "looked_at", value: "{look.client}" }
        if !look.areas.is_empty() {
            section { id: "look", class: "look",
                h2 { {words.say("artist.look.title").to_owned()} }
                for area in &look.areas {
                    AreaQuestion { key: "{area.area}", area: area.clone(), shares: look.shares.clone(), form: form.clone() }
                }
            }
        }
    }
}

#[component]
fn AreaQuestion(area: AreaToLookAt, shares: Vec<(String, String)>, form: Filled) -> Element {
    let page = use_page();
    let words = &page.words;
    let name = format!("seen_{}", area.area);
    let fault = form.fault(&name).map(str::to_owned);
    let told_by = if fault.is_some() {
        format!("forecast-{name} fault-{name}")
    } else {
        format!("forecast-{name}")
    };
    let chosen = form.value(&name).to_owned();
    rsx! {
        fieldset { aria_describedby: told_by,
            legend { {words.fill("artist.look.question", &[("area", &area.name)])} }
            p { class: "forecast", id: "forecast-{name}",
                span { class: "hint", "{area.removed}" }
                strong { "{area.expected}" }
            }
            if let Some(forecast) = &area.forecast {
                {regrowth_figure(forecast, None, area.days, words, &format!("/studio/visits/{}/regrowth/{}", area.visit, area.area))}
            }
            {fault_text(&name, fault)}
            div { class: "choices shares",
                for (value, label) in &shares {
                    label { class: "choice", key: "{value}",
                        input { r#type: "radio", name: "{name}", value: "{value}", "checked": chosen == *value }
                        span { "{label}" }
                    }
                }
            }
            TextField {
                name: "first_hairs_{area.area}",
                kind: "number",
                label: words.say("artist.look.first_hairs").to_owned(),
                hint: words.say("artist.look.first_hairs_hint").to_owned(),
                required: false,
                form: form.clone(),
            }
        }
    }
}

/// What a forecast cannot follow, folded away unless something is ticked.
#[component]
pub(super) fn FlagsPart(look: LookAgain, form: Filled) -> Element {
    let page = use_page();
    let words = &page.words;
    let open = form.all("flags").next().is_some() || form.fault("flags").is_some();
    rsx! {
        details { class: "fold", open,
            summary { {words.say("artist.look.flags").to_owned()} }
            p { class: "hint", {words.say("artist.look.flags_hint").to_owned()} }
            Choices {
                kind: "checkbox",
                name: "flags",
                legend: words.say("artist.look.flags_today").to_owned(),
                options: look.flags.clone(),
                form,
            }
        }
    }
}

/// Forecast and observation side by side, and what they mean for the next forecast.
#[component]
pub(super) fn LookedPart(visit: VisitView) -> Element {
    let page = use_page();
    let words = &page.words;
    rsx! {
        if !visit.looked.is_empty() || !visit.pace.is_empty() {
            section { class: "looked",
                h2 { {words.say("artist.look.seen_title").to_owned()} }
                for (at, looked) in visit.looked.iter().enumerate() {
                    div { key: "{at}",
                        if at.checked_sub(1).and_then(|before| visit.looked.get(before)).is_none_or(|before| before.what != looked.what) {
                            h3 { "{looked.what}" }
                        }
                        dl { class: "side-by-side",
                            div {
                                dt { {words.say("artist.look.expected").to_owned()} }
                                dd { "{looked.expected}" }
                            }
                            div {
                                dt { {words.say("artist.look.seen").to_owned()} }
                                dd { "{looked.seen}" }
                            }
                        }
                    }
                }
                if !visit.pace.is_empty() {
                    p { "{visit.pace}" }
                }
            }
        }
    }
}
