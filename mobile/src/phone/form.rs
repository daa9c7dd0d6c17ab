//! The client's forms as the browser holds them.

use shared_types::page::form::Filled;
use uuid::Uuid;
use wasm_bindgen::JsCast;
use web_sys::{
    Document, Element, HtmlElement, HtmlFormElement, HtmlInputElement, HtmlTextAreaElement,
};

use crate::client::errand::Errand;

/// The field by which a report is told from any other. It is made on the phone, so that photos can be kept for it before
/// it is sent.
pub const ID: &str = "report_id";

pub fn document() -> Option<Document> {
    web_sys::window()?.document()
}

fn form_of(errand: Errand) -> Option<HtmlFormElement> {
    document()?
        .get_element_by_id(errand.form())?
        .dyn_into()
        .ok()
}

/// Calls `with` for each of the form's elements.
fn each(form: &HtmlFormElement, mut with: impl FnMut(&Element)) {
    let elements = form.elements();
    for at in 0..elements.length() {
        if let Some(element) = elements.item(at) {
            with(&element);
        }
    }
}

/// The form as it stands.
pub fn read(errand: Errand) -> Option<Filled> {
    let mut filled = Filled::default();
    each(&form_of(errand)?, |element| {
        if let Some(area) = element.dyn_ref::<HtmlTextAreaElement>() {
            filled.put(&area.name(), area.value());
        } else if let Some(input) = element.dyn_ref::<HtmlInputElement>() {
            let counts = match input.type_().as_str() {
                "checkbox" | "radio" => input.checked(),
                "hidden" => input.name() == ID,
                "file" => false,
                _ => true,
            };
            if counts {
                filled.put(&input.name(), input.value());
            }
        }
    });
    Some(filled)
}

/// Fills the form in again, and shows it, should it be folded away.
pub fn fill(errand: Errand, filled: &Filled) {
    let Some(form) = form_of(errand) else { return };
    if let Ok(Some(fold)) = form.closest("details") {
        let _ = fold.set_attribute("open", "");
    }
    each(&form, |element| {
        if let Some(area) = element.dyn_ref::<HtmlTextAreaElement>() {
            area.set_value(filled.value(&area.name()));
        } else if let Some(input) = element.dyn_ref::<HtmlInputElement>() {
            match input.type_().as_str() {
                "checkbox" | "radio" => {
                    input.set_checked(filled.has(&input.name(), &input.value()))
                }
                "hidden" if input.name() == ID => {
                    let id = Some(filled.value(ID).to_owned()).filter(|id| !id.is_empty());
                    input.set_value(&id.unwrap_or_else(|| Uuid::new_v4().to_string()));
                }
                "hidden" => {}
                _ => input.set_value(filled.value(&input.name())),
            }
        }
    });
}

/// Empties the form; a report begun after that is another one.
pub fn clear(errand: Errand) {
    fill(errand, &Filled::default());
}

/// The id that the form was given on this phone.
pub fn id(filled: &Filled) -> Option<Uuid> {
    filled.value(ID).parse().ok()
}

/// The element with this id.
pub fn by_id(id: &str) -> Option<HtmlElement> {
    document()?.get_element_by_id(id)?.dyn_into().ok()
}

/// Calls `with` for each element that a selector finds.
pub fn all(selector: &str, mut with: impl FnMut(&Element)) {
    let found = document().and_then(|document| document.query_selector_all(selector).ok());
    let Some(found) = found else { return };
    for at in 0..found.length() {
        if let Some(element) = found.item(at).and_then(|node| node.dyn_into().ok()) {
            with(&element);
        }
    }
}

/// Shows or hides an element.
pub fn hide(element: &Element, hidden: bool) {
    let _ = if hidden {
        element.set_attribute("hidden", "")
    } else {
        element.remove_attribute("hidden")
    };
}

/// Brings an element into view: what has just changed, or the first sentence that needs mending.
pub fn show(selector: &str) {
    let element = document().and_then(|document| document.query_selector(selector).ok().flatten());
    if let Some(element) = element {
        element.scroll_into_view();
    }
}
