//! What changes while the client's page is open, and what makes it change. On the server nothing does.

use chrono::{DateTime, Utc};
use dioxus::prelude::*;
use shared_types::{
    page::{
        client::{ClientPage, Moment, SentCard},
        form::Filled,
    },
    reaction::How,
};

use super::{
    Page,
    desk::{Desk, Sends},
    errand::Errand,
    trouble::Trouble,
};
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
    /// The same, for so long that the phone may delete it.
    KeptLong,
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
    /// Of each [`Errand`].
    pub sending: [Signal<Sending>; 3],
    /// The form as it was last sent, with what needs mending.
    pub form: Signal<Filled>,
    /// The last request failed: the page says which moment it is from.
    pub offline: Signal<bool>,
}

impl Live {
    pub fn new(page: &ClientPage) -> Self {
        let mut live = Self::with(page.now, page.form.clone());
        live.reports.set(page.reports.clone());
        live.wishes.set(page.wishes.clone());
        live
    }

    /// Of a page that shows nothing of what was sent before.
    pub fn with(now: DateTime<Utc>, form: Filled) -> Self {
        Self {
            now: Signal::new(now),
            reports: Signal::new(Vec::new()),
            wishes: Signal::new(Vec::new()),
            sending: [(); 3].map(|()| Signal::new(Sending::Nothing)),
            form: Signal::new(form),
            offline: Signal::new(false),
        }
    }

    pub fn sending(&self, errand: Errand) -> Signal<Sending> {
        let [report, follow_up, wish] = self.sending;
        match errand {
            Errand::Report => report,
            Errand::FollowUp => follow_up,
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

/// The same for the page that says what to do.
pub fn use_trouble(page: Trouble, live: Live) {
    use_effect(move || {
        #[cfg(target_arch = "wasm32")]
        phone::trouble::begin(page.clone(), live);
        #[cfg(not(target_arch = "wasm32"))]
        let _ = (&page, live);
    });
}

/// Takes what was written from the form, keeps it on the phone, and begins to send it. Should anything fail before the
/// event is prevented, the browser posts the plain form instead.
pub fn submit(event: &FormEvent, desk: &Desk, live: Live, errand: Errand) {
    #[cfg(target_arch = "wasm32")]
    if phone::post::submit(desk, live, errand) {
        event.prevent_default();
    }
    #[cfg(not(target_arch = "wasm32"))]
    let _ = (event, desk, live, errand);
}

/// Keeps what has been typed so far on the phone.
pub fn draft_changed(desk: &dyn Sends, errand: Errand) {
    #[cfg(target_arch = "wasm32")]
    phone::post::keep_draft(desk, errand);
    #[cfg(not(target_arch = "wasm32"))]
    let _ = (desk, errand);
}

/// Keeps the answer to how it goes on the phone and begins to send it; the plain form otherwise.
pub fn follow_up(event: &MouseEvent, page: &Page, live: Live, card: &SentCard, how: How) {
    #[cfg(target_arch = "wasm32")]
    if phone::client::follow_up(page, live, card, how) {
        event.prevent_default();
    }
    #[cfg(not(target_arch = "wasm32"))]
    let _ = (event, page, live, card, how);
}
