//! Requests to the page's own studio. Only an answer counts: whether the phone believes to be online is never asked.

use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{AbortController, Headers, RequestCache, RequestInit, Response};

use super::{
    page_view,
    reading::{self, Readable},
};

/// A hanging network is given up after this long, and tried again later.
const PATIENCE_MILLIS: i32 = 20_000;

/// An answer of the studio's.
pub struct Answer {
    pub status: u16,
    pub body: String,
}

impl Answer {
    pub fn read<T: Readable>(&self) -> Option<T> {
        reading::read(&self.body)
    }
}

/// Sends one request and waits for the whole answer. `None`: nothing came back.
pub async fn ask(method: &str, address: &str, json: Option<&str>) -> Option<Answer> {
    send(method, address, json).await.ok()
}

async fn send(method: &str, address: &str, json: Option<&str>) -> Result<Answer, JsValue> {
    let window = web_sys::window().ok_or(JsValue::NULL)?;
    let impatience = AbortController::new()?;
    let init = RequestInit::new();
    init.set_method(method);
    init.set_cache(RequestCache::NoStore);
    init.set_signal(Some(&impatience.signal()));
    if let Some(json) = json {
        let headers = Headers::new()?;
        headers.set("content-type", "application/json")?;
        init.set_headers(&headers);
        init.set_body(&JsValue::from_str(json));
    }
    page_view::after(PATIENCE_MILLIS, move || impatience.abort());

    let response: Response = JsFuture::from(window.fetch_with_str_and_init(address, &init))
        .await?
        .dyn_into()?;
    let body = JsFuture::from(response.text()?)
        .await?
        .as_string()
        .unwrap_or_default();
    Ok(Answer {
        status: response.status(),
        body,
    })
}
