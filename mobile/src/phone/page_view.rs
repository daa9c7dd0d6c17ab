//! The page's window: whether it is looked at, timers, and events that outlive the function that asks for them.

use wasm_bindgen::{JsCast, closure::Closure};
use web_sys::{Element, EventTarget, VisibilityState};

/// Marks the document as alive, for styles and for tests.
pub fn mark_alive() {
    if let Some(root) = root() {
        let _ = root.set_attribute("data-alive", "yes");
    }
}

/// The language that the document is in.
pub fn language() -> String {
    root()
        .and_then(|root| root.get_attribute("lang"))
        .unwrap_or_default()
}

fn root() -> Option<Element> {
    web_sys::window()?.document()?.document_element()
}

pub fn is_visible() -> bool {
    web_sys::window()
        .and_then(|window| window.document())
        .is_some_and(|document| document.visibility_state() == VisibilityState::Visible)
}

/// Runs `then` for as long as the page is open, every `millis`.
pub fn every(millis: i32, then: impl FnMut() + 'static) {
    let then = Closure::<dyn FnMut()>::new(then);
    if let Some(window) = web_sys::window() {
        let _ = window.set_interval_with_callback_and_timeout_and_arguments_0(
            then.as_ref().unchecked_ref(),
            millis,
        );
    }
    then.forget();
}

/// Runs `then` once, after `millis`.
pub fn after(millis: i32, then: impl FnOnce() + 'static) {
    let then = Closure::once_into_js(then);
    if let Some(window) = web_sys::window() {
        let _ = window
            .set_timeout_with_callback_and_timeout_and_arguments_0(then.unchecked_ref(), millis);
    }
}

/// Runs `then` whenever the page comes to the front or the phone says that the network is back. Neither is believed:
/// both are only occasions to try.
pub fn on_occasion(then: impl FnMut() + Clone + 'static) {
    let Some(window) = web_sys::window() else {
        return;
    };
    on(&window, "online", then.clone());
    on(&window, "pageshow", then.clone());
    if let Some(document) = window.document() {
        on(&document, "visibilitychange", then);
    }
}

fn on(target: &EventTarget, event: &str, mut then: impl FnMut() + 'static) {
    let then = Closure::<dyn FnMut()>::new(move || {
        if is_visible() {
            then();
        }
    });
    let _ = target.add_event_listener_with_callback(event, then.as_ref().unchecked_ref());
    then.forget();
}
