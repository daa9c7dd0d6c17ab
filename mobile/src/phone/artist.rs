//! The artist's screen alive.

use dioxus::prelude::*;
use shared_types::wire::LinkUse;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::JsFuture;
use web_sys::HtmlElement;

use super::{net, page_view};
use crate::artist::life::LiveLink;

const ASK_MILLIS: i32 = 3_000;

/// Asks every few seconds whether the client's page was opened, until it was.
pub fn watch(address: String, mut live: LiveLink) {
    live.alive.set(true);
    page_view::every(ASK_MILLIS, move || {
        if !page_view::is_visible() || live.opened.peek().is_some() {
            return;
        }
        let address = address.clone();
        wasm_bindgen_futures::spawn_local(async move {
            let answer = net::ask("GET", &address, None).await;
            if let Some(LinkUse {
                opened: Some(at),
                read_in,
            }) = answer.and_then(|answer| answer.read())
            {
                live.opened.set(Some(at));
                live.read_in.set(read_in);
            }
        });
    });
}

pub fn copy(url: &str, mut live: LiveLink) {
    let Some(window) = web_sys::window() else {
        return;
    };
    let writing = window.navigator().clipboard().write_text(url);
    wasm_bindgen_futures::spawn_local(async move {
        if JsFuture::from(writing).await.is_ok() {
            live.copied.set(true);
        }
    });
}

/// Presses a button of a form.
pub fn press(id: &str) {
    let button = web_sys::window()
        .and_then(|window| window.document())
        .and_then(|document| document.get_element_by_id(id))
        .and_then(|element| element.dyn_into::<HtmlElement>().ok());
    if let Some(button) = button {
        button.click();
    }
}
