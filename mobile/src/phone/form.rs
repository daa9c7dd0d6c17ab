//! The report form as the browser holds it: read into a report, and filled in again from one.

use shared_types::reaction::{Report, Sign, Since, Trend};
use wasm_bindgen::JsCast;
use web_sys::{FormData, HtmlFormElement, HtmlInputElement, HtmlTextAreaElement};

fn report_form() -> Option<HtmlFormElement> {
    web_sys::window()?
        .document()?
        .get_element_by_id("report")?
        .dyn_into()
        .ok()
}

/// The report as it stands in the form.
pub fn read() -> Option<Report> {
    let data = FormData::new_with_form(&report_form()?).ok()?;
    let text = |name: &str| data.get(name).as_string().unwrap_or_default();
    Some(Report {
        signs: data
            .get_all("signs")
            .iter()
            .filter_map(|one| one.as_string())
            .filter_map(|term| term.parse::<Sign>().ok())
            .collect(),
        since: text("since").parse::<Since>().ok(),
        trend: text("trend").parse::<Trend>().ok(),
        words: text("words"),
        reach: text("reach"),
        consent: Some(text("consent")).filter(|version| !version.is_empty()),
    })
}

/// Puts a kept draft back. The consent is left to be ticked anew: it is given when sending, not when drafting.
pub fn fill(draft: &Report) {
    let Some(form) = report_form() else { return };
    let elements = form.elements();
    for at in 0..elements.length() {
        let Some(element) = elements.item(at) else {
            continue;
        };
        if let Some(area) = element.dyn_ref::<HtmlTextAreaElement>() {
            area.set_value(&draft.words);
        } else if let Some(input) = element.dyn_ref::<HtmlInputElement>() {
            let value = input.value();
            match input.name().as_str() {
                "signs" => input.set_checked(draft.signs.iter().any(|sign| sign.term() == value)),
                "since" => {
                    input.set_checked(draft.since.is_some_and(|since| since.term() == value))
                }
                "trend" => {
                    input.set_checked(draft.trend.is_some_and(|trend| trend.term() == value))
                }
                "reach" => input.set_value(&draft.reach),
                _ => {}
            }
        }
    }
}

pub fn clear() {
    if let Some(form) = report_form() {
        form.reset();
    }
}

/// Brings an element into view: what has just changed, or the first sentence that needs mending.
pub fn show(selector: &str) {
    let element = web_sys::window()
        .and_then(|window| window.document())
        .and_then(|document| document.query_selector(selector).ok().flatten());
    if let Some(element) = element {
        element.scroll_into_view();
    }
}
