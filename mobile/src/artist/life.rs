//! What a living screen of the artist's does beside its forms: whether the client has opened the page while the QR is shown,
//! that a report is looked at, a sentence put into a text, a zone that was tapped.

use dioxus::prelude::*;
use shared_types::{
    page::{artist::LinkView, client::Moment},
    zones::{Mark, Place, Zones},
};

#[cfg(target_arch = "wasm32")]
use crate::phone;

#[derive(Clone, Copy)]
pub struct LiveLink {
    /// The screen is alive: offers what needs JavaScript.
    pub alive: Signal<bool>,
    pub opened: Signal<Option<Moment>>,
    /// In which languages it was read, as a sentence.
    pub read_in: Signal<String>,
    pub copied: Signal<bool>,
}

/// Marks the screen as alive once its handlers are attached.
pub fn use_alive() {
    use_effect(|| {
        #[cfg(target_arch = "wasm32")]
        phone::page_view::mark_alive();
    });
}

/// Whether the screen is alive; not while it is drawn for the first time.
pub fn use_alive_signal() -> Signal<bool> {
    let alive = use_signal(|| false);
    use_effect(move || {
        let mut alive = alive;
        alive.set(true);
    });
    alive
}

/// Tells the studio once that a report is looked at, as soon as it is.
pub fn use_seen(address: String, csrf: &str, is_new: bool) {
    let csrf = csrf.to_owned();
    use_effect(move || {
        #[cfg(target_arch = "wasm32")]
        if is_new {
            phone::artist::see(address.clone(), csrf.clone());
        }
        #[cfg(not(target_arch = "wasm32"))]
        let _ = (&address, &csrf, is_new);
    });
}

/// Puts a sentence into a text area, behind what is there.
pub fn put_text(field: &str, sentence: &str) {
    #[cfg(target_arch = "wasm32")]
    phone::artist::put_text(&format!("field-{field}"), sentence);
    #[cfg(not(target_arch = "wasm32"))]
    let _ = (field, sentence);
}

/// Asks, while the screen is looked at, whether the link was opened.
pub fn use_link(visit: &str, link: &LinkView) -> LiveLink {
    let live = LiveLink {
        alive: use_signal(|| false),
        opened: use_signal(|| link.opened.clone()),
        read_in: use_signal(|| link.read_in.clone()),
        copied: use_signal(|| false),
    };
    let address = (!link.url.is_empty()).then(|| format!("/studio/visits/{visit}/opened"));
    use_effect(move || {
        #[cfg(target_arch = "wasm32")]
        if let Some(address) = address.clone() {
            phone::artist::watch(address, live);
        }
        #[cfg(not(target_arch = "wasm32"))]
        let _ = &address;
    });
    live
}

/// Copies the link for a message to the client.
pub fn copy(url: &str, live: LiveLink) {
    #[cfg(target_arch = "wasm32")]
    phone::artist::copy(url, live);
    #[cfg(not(target_arch = "wasm32"))]
    let _ = (url, live);
}

/// A client was chosen: asks for the form again with what is known of them.
pub fn look_up() {
    #[cfg(target_arch = "wasm32")]
    phone::artist::press("look-up");
}

/// The id of the radio button that gives a place this mark, or none.
pub fn radio(place: Place, mark: Option<Mark>) -> String {
    format!("{}-{}", place.field(), mark.map_or("none", Mark::term))
}

/// Takes over what the browser remembered of the zones, once the screen is alive.
pub fn use_zones(zones: Signal<Zones>) {
    use_effect(move || {
        #[cfg(target_arch = "wasm32")]
        {
            let mut zones = zones;
            let chosen = phone::zones::chosen();
            if *zones.peek() != chosen {
                zones.set(chosen);
            }
        }
        #[cfg(not(target_arch = "wasm32"))]
        let _ = zones;
    });
}

/// Chooses the radio button of a zone that was tapped.
pub fn choose(place: Place, mark: Option<Mark>) {
    #[cfg(target_arch = "wasm32")]
    phone::zones::choose(place, mark);
    #[cfg(not(target_arch = "wasm32"))]
    let _ = (place, mark);
}
