//! The artist's screen alive.

use dioxus::prelude::*;
use shared_types::wire::LinkUse;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{Headers, HtmlElement, HtmlTextAreaElement, RequestInit};

use super::{net, page_view};
use crate::artist::life::LiveLink;

const ASK_MILLIS: i32 = 3_000;
const LOOK_MILLIS: i32 = 1_000;

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

/// Tells the studio that a report is looked at: once, and not before its tab is in front.
pub fn see(address: String, csrf: String) {
    let mut told = false;
    page_view::every(LOOK_MILLIS, move || {
        if told || !page_view::is_visible() {
            return;
        }
        told = true;
        let (address, csrf) = (address.clone(), csrf.clone());
        wasm_bindgen_futures::spawn_local(async move {
            // Where it does not arrive, it stands as not seen, which is the safer side.
            let _ = post(&address, &csrf).await;
        });
    });
}

/// Sends a form that holds nothing but the screen's token.
async fn post(address: &str, csrf: &str) -> Result<(), JsValue> {
    let window = web_sys::window().ok_or(JsValue::NULL)?;
    let headers = Headers::new()?;
    headers.set("content-type", "application/x-www-form-urlencoded")?;
    let init = RequestInit::new();
    init.set_method("POST");
    init.set_headers(&headers);
    let token = String::from(js_sys::encode_uri_component(csrf));
    init.set_body(&JsValue::from_str(&format!("csrf={token}")));
    JsFuture::from(window.fetch_with_str_and_init(address, &init)).await?;
    Ok(())
}

/// Puts a sentence into a text area, behind what is there, and goes there.
pub fn put_text(id: &str, sentence: &str) {
    let area = web_sys::window()
        .and_then(|window| window.document())
        .and_then(|document| document.get_element_by_id(id))
        .and_then(|element| element.dyn_into::<HtmlTextAreaElement>().ok());
    let Some(area) = area else {
        return;
    };
    let before = area.value();
    let before = before.trim_end();
    let between = if before.is_empty() { "" } else { " " };
    area.set_value(&format!("{before}{between}{sentence} "));
    let _ = area.focus();
}
