//! The radio buttons of the zones: set by a tap on the drawing, and read where the browser remembered them.

use shared_types::zones::{Mark, Place, Zones};
use wasm_bindgen::JsCast;
use web_sys::HtmlInputElement;

use crate::artist::life::radio;

pub fn choose(place: Place, mark: Option<Mark>) {
    if let Some(button) = button(place, mark) {
        button.set_checked(true);
    }
}

/// What is chosen: not always what the server drew, for a browser that goes back fills a form in again.
pub fn chosen() -> Zones {
    let mut zones = Zones::default();
    for place in Place::all() {
        let is_chosen = |mark: &&Mark| button(place, Some(**mark)).is_some_and(|one| one.checked());
        zones.set(place, Mark::ALL.iter().find(is_chosen).copied());
    }
    zones
}

fn button(place: Place, mark: Option<Mark>) -> Option<HtmlInputElement> {
    let document = web_sys::window()?.document()?;
    document
        .get_element_by_id(&radio(place, mark))?
        .dyn_into()
        .ok()
}
