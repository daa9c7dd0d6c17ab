//! The client's forms as the browser holds them.

use shared_types::page::form::Filled;
use wasm_bindgen::JsCast;
use web_sys::{FormData, HtmlFormElement, HtmlInputElement, HtmlTextAreaElement};

use crate::client::errand::Errand;

fn form_of(errand: Errand) -> Option<HtmlFormElement> {
    web_sys::window()?
        .document()?
        .get_element_by_id(errand.form())?
        .dyn_into()
        .ok()
}

/// The form as it stands.
pub fn read(errand: Errand) -> Option<Filled> {
    let data = FormData::new_with_form(&form_of(errand)?).ok()?;
    let mut filled = Filled::default();
    for field in errand.fields() {
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

/// Fills the form in again, and shows it, should it be folded away.
pub fn fill(errand: Errand, filled: &Filled) {
    let Some(form) = form_of(errand) else { return };
    if let Ok(Some(fold)) = form.closest("details") {
        let _ = fold.set_attribute("open", "");
    }
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

pub fn clear(errand: Errand) {
    fill(errand, &Filled::default());
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
