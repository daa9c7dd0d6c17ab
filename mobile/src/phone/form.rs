//! The report form as the browser holds it.

use shared_types::page::form::Filled;
use wasm_bindgen::JsCast;
use web_sys::{FormData, HtmlFormElement, HtmlInputElement, HtmlTextAreaElement};

/// What the client fills in; the rest of the form is the page's own.
const FIELDS: [&str; 6] = ["signs", "since", "trend", "words", "reach", "consent"];

fn report_form() -> Option<HtmlFormElement> {
    web_sys::window()?
        .document()?
        .get_element_by_id("report")?
        .dyn_into()
        .ok()
}

/// The form as it stands.
pub fn read() -> Option<Filled> {
    let data = FormData::new_with_form(&report_form()?).ok()?;
    let mut filled = Filled::default();
    for field in FIELDS {
        for value in data
            .get_all(field)
            .iter()
            .filter_map(|value| value.as_string())
        {
            filled.put(field, value);
        }
    }
    Some(filled)
}

/// Fills the form in again.
pub fn fill(filled: &Filled) {
    let Some(form) = report_form() else { return };
    let elements = form.elements();
    for at in 0..elements.length() {
        let Some(element) = elements.item(at) else {
            continue;
        };
        if let Some(area) = element.dyn_ref::<HtmlTextAreaElement>() {
            area.set_value(filled.value(&area.name()));
        } else if let Some(input) = element.dyn_ref::<HtmlInputElement>() {
            match input.type_().as_str() {
                "checkbox" | "radio" => {
                    input.set_checked(filled.has(&input.name(), &input.value()))
                }
                "hidden" => {}
                _ => input.set_value(filled.value(&input.name())),
            }
        }
    }
}

pub fn clear() {
    fill(&Filled::default());
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
