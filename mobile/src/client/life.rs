//! What changes while the client's page is open, and what makes it change. On the server nothing does.

use chrono::{DateTime, Utc};
use dioxus::prelude::*;
use shared_types::page::{
    client::{ClientPage, Moment, ReportCard},
    form::Filled,
};

use super::Page;
#[cfg(target_arch = "wasm32")]
use crate::phone;

/// Where the report that was written on this phone is.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum Sending {
    #[default]
    Nothing,
    /// On the phone; a request is under way.
    Trying,
    /// On the phone; the last request did not get through.
    Kept,
    /// The studio has it on disk.
    Received(Moment),
    /// The studio will not take it as it is; the sentence says what to do.
    Refused(String),
}

/// The parts of the page that move.
#[derive(Clone, Copy)]
pub struct Live {
    pub now: Signal<DateTime<Utc>>,
    pub reports: Signal<Vec<ReportCard>>,
    pub sending: Signal<Sending>,
    /// The form as it was last sent, with what needs mending.
    pub form: Signal<Filled>,
    /// The last request failed: the page says which moment it is from.
    pub offline: Signal<bool>,
}

impl Live {
    pub fn new(page: &ClientPage) -> Self {
        Self {
            now: Signal::new(page.now),
            reports: Signal::new(page.reports.clone()),
            sending: Signal::new(Sending::Nothing),
            form: Signal::new(page.form.clone()),
            offline: Signal::new(false),
        }
    }
}

/// Starts the clock, the draft, the outbox and the worker, once the page is on screen.
pub fn use_life(page: Page, live: Live) {
    use_effect(move || {
        #[cfg(target_arch = "wasm32")]
        phone::client::begin(page.clone(), live);
        #[cfg(not(target_arch = "wasm32"))]
        let _ = (&page, live);
    });
}

/// Takes the report from the form, keeps it on the phone, and begins to send it. Should anything fail before the
/// event is prevented, the browser posts the plain form instead.
pub fn submit(event: &FormEvent, page: &Page, live: Live) {
    #[cfg(target_arch = "wasm32")]
    if phone::client::submit(page, live) {
        event.prevent_default();
    }
    #[cfg(not(target_arch = "wasm32"))]
    let _ = (event, page, live);
}

/// Keeps what has been typed so far on the phone.
pub fn draft_changed(page: &Page) {
    #[cfg(target_arch = "wasm32")]
    phone::client::keep_draft(page);
    #[cfg(not(target_arch = "wasm32"))]
    let _ = page;
}
