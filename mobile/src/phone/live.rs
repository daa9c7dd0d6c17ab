//! Listening to the studio while a screen is open.

use std::{cell::RefCell, rc::Rc};

use dioxus::prelude::*;
use shared_types::wire::Waiting;
use wasm_bindgen::{JsCast, closure::Closure};
use web_sys::{EventSource, MessageEvent};

use super::{json, page_view, sound};
use crate::artist::live::LiveScreen;

const ADDRESS: &str = "/studio/live";

/// Listens for as long as the page is open. Where another screen of the same browser took the place, it listens again
/// once the page is looked at.
pub fn listen(mut live: LiveScreen) {
    count(&live.waiting.peek());
    live.sound.set(Some(sound::is_wished()));
    sound::wake_with_first_touch();
    let source: Rc<RefCell<Option<EventSource>>> = Rc::default();
    *source.borrow_mut() = open(live, source.clone());
    page_view::on_occasion(move || {
        let is_shut = source
            .borrow()
            .as_ref()
            .is_none_or(|source| source.ready_state() == EventSource::CLOSED);
        if is_shut {
            let opened = open(live, source.clone());
            *source.borrow_mut() = opened;
        }
    });
}

fn open(mut live: LiveScreen, kept: Rc<RefCell<Option<EventSource>>>) -> Option<EventSource> {
    let source = EventSource::new(ADDRESS).ok()?;
    on(&source, "waiting", move |event| {
        let Some(now) = event
            .data()
            .as_string()
            .and_then(|text| json::read::<Waiting>(&text))
        else {
            return;
        };
        count(&now);
        if let Some(ring) = live.take(now)
            && live.sound.peek().unwrap_or_default()
        {
            sound::ring(ring.urgent);
        }
    });
    on(&source, "elsewhere", move |_| {
        if let Some(source) = kept.borrow().as_ref() {
            source.close();
        }
    });
    Some(source)
}

fn on(source: &EventSource, event: &str, then: impl FnMut(MessageEvent) + 'static) {
    let then = Closure::<dyn FnMut(MessageEvent)>::new(then);
    let _ = source.add_event_listener_with_callback(event, then.as_ref().unchecked_ref());
    then.forget();
}

/// How much waits, before the page's title.
fn count(waiting: &Waiting) {
    let Some(document) = web_sys::window().and_then(|window| window.document()) else {
        return;
    };
    let title = document.title();
    let plain = match title
        .strip_prefix('(')
        .and_then(|rest| rest.split_once(") "))
    {
        Some((number, plain)) if number.bytes().all(|digit| digit.is_ascii_digit()) => plain,
        _ => &title,
    };
    let waits = waiting.reports + waiting.wishes;
    let counted = if waits > 0 {
        format!("({waits}) {plain}")
    } else {
        plain.to_owned()
    };
    if counted != title {
        document.set_title(&counted);
    }
}

/// Switches the sound on or off on this device. The touch that does it is what a browser asks for before it lets anything
/// sound; that it worked can be heard.
pub fn switch_sound(mut live: LiveScreen, on: bool) {
    sound::wish(on);
    live.sound.set(Some(on));
    if on {
        sound::ring(false);
    }
}
