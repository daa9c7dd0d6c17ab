//! What changes while the client's page is open, and what makes it change. On the server nothing does.

use chrono::{DateTime, Utc};
use dioxus::prelude::*;
use shared_types::page::{
    client::{ClientPage, Moment, SentCard},
    form::Filled,
};

use super::{Page, errand::Errand};
#[cfg(target_arch = "wasm32")]
use crate::phone;

/// Where the report or the wish that was written on this phone is.
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
    pub reports: Signal<Vec<SentCard>>,
    pub wishes: Signal<Vec<SentCard>>,
    /// Of the report and of the wish.
    pub sending: [Signal<Sending>; 2],
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
            wishes: Signal::new(page.wishes.clone()),
            sending: [(); 2].map(|()| Signal::new(Sending::Nothing)),
            form: Signal::new(page.form.clone()),
            offline: Signal::new(false),
        }
    }

    pub fn sending(&self, errand: Errand) -> Signal<Sending> {
        let [report, wish] = self.sending;
        match errand {
            Errand::Report => report,
            Errand::Wish => wish,
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

/// Takes what was written from the form, keeps it on the phone, and begins to send it. Should anything fail before the
/// event is prevented, the browser posts the plain form instead.
pub fn submit(event: &FormEvent, page: &Page, live: Live, errand: Errand) {
    #[cfg(target_arch = "wasm32")]
    if phone::client::submit(page, live, errand) {
        event.prevent_default();
    }
    #[cfg(not(target_arch = "wasm32"))]
    let _ = (event, page, live, errand);
}

/// Keeps what has been typed so far on the phone.
pub fn draft_changed(page: &Page, errand: Errand) {
    #[cfg(target_arch = "wasm32")]
    phone::client::keep_draft(page, errand);
    #[cfg(not(target_arch = "wasm32"))]
    let _ = (page, errand);
}
