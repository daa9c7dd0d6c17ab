//! The photos of a report, on the phone until the studio has them. What does the work is a module of its own
//! (`assets/photos.js`), fetched only by whoever chooses a photo or has one still here.

use std::cell::Cell;

use gloo_storage::{LocalStorage, Storage};
use wasm_bindgen::{JsCast, JsValue, closure::Closure, prelude::wasm_bindgen};
use web_sys::Event;

use super::{form, page_view};

#[wasm_bindgen(
    inline_js = "export const attach = (code, path) => import(code).then((photos) => photos.attach(path));"
)]
extern "C" {
    #[wasm_bindgen(catch)]
    async fn attach(code: &str, path: &str) -> Result<JsValue, JsValue>;
}

thread_local! {
    static ATTACHED: Cell<bool> = const { Cell::new(false) };
}

/// How many were chosen for the report that is being written.
pub fn chosen() -> u8 {
    let mut chosen = 0;
    form::all("#photos-chosen [data-photo]", |_| chosen += 1);
    chosen
}

/// Waits for one to be chosen, and hands over what is still here.
pub fn begin(path: &str) {
    if let Some(input) = form::by_id("report-photos") {
        let path = path.to_owned();
        let chosen = Closure::<dyn FnMut()>::new(move || fetch(&path));
        let chosen_one = chosen.as_ref().unchecked_ref();
        let _ = input.add_event_listener_with_callback("change", chosen_one);
        chosen.forget();
    }
    if LocalStorage::raw().get_item(&format!("betweentimes:{path}:photos")) != Ok(None) {
        fetch(path);
    }
}

/// An occasion to hand over: the studio has the report, or the network may be back.
pub fn hand_over() {
    if let (Some(document), Ok(event)) = (form::document(), Event::new("betweentimes:photos")) {
        let _ = document.dispatch_event(&event);
    }
}

fn fetch(path: &str) {
    let script = form::document()
        .and_then(|document| document.query_selector("script[data-photos]").ok()?);
    let code = script.and_then(|script| script.get_attribute("data-photos"));
    let (Some(code), false) = (code, ATTACHED.replace(true)) else {
        return;
    };
    let path = path.to_owned();
    wasm_bindgen_futures::spawn_local(async move {
        if attach(&code, &path).await.is_err() {
            // Without network and not kept yet: tried again when there is reason to.
            ATTACHED.set(false);
            page_view::after(20_000, move || begin_again(&path));
        }
    });
}

fn begin_again(path: &str) {
    if !ATTACHED.get() {
        fetch(path);
    }
}
