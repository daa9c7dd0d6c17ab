//! What comes in while a screen is open: the counts beside the ways, a line that says so, a sound if one is wished for.
//! Nothing is loaded again under the artist's hands.

use dioxus::prelude::*;
use shared_types::{
    urgency::Level,
    wire::{News, Waiting},
};

use super::{Page, use_page};
#[cfg(target_arch = "wasm32")]
use crate::phone;

/// What moves.
#[derive(Clone, Copy, PartialEq)]
pub struct LiveScreen {
    pub waiting: Signal<Waiting>,
    /// What came in since the screen was drawn; `None` until something does, or once it was put away.
    pub news: Signal<Option<News>>,
    /// Whether a sound is wished for; `None` until the screen is alive.
    pub sound: Signal<Option<bool>>,
}

/// Listens for as long as the screen is open, if somebody is signed in.
pub(super) fn use_live(page: &Page) -> LiveScreen {
    let live = use_context_provider(|| LiveScreen {
        waiting: Signal::new(page.waiting.clone()),
        news: Signal::new(None),
        sound: Signal::new(None),
    });
    let signed_in = !page.csrf.is_empty();
    use_effect(move || {
        #[cfg(target_arch = "wasm32")]
        if signed_in {
            phone::live::listen(live);
        }
        #[cfg(not(target_arch = "wasm32"))]
        let _ = signed_in;
    });
    live
}

impl LiveScreen {
    /// Takes over what waits now; says what came in since it was told last. Whether to sound for it, and how urgently.
    pub fn take(&mut self, now: Waiting) -> Option<Ring> {
        let before = self.waiting.replace(now.clone());
        let reports = now.reported.saturating_sub(before.reported);
        let news = match reports {
            0 if now.wished > before.wished => now.wish,
            0 => return None,
            1 => now.report,
            // Of several the list says which is the most urgent.
            _ => News {
                address: "/studio/reports".to_owned(),
                level: now.most_urgent,
                ..now.report
            },
        };
        let ring = Ring {
            urgent: news.level.is_some_and(|level| level >= Level::SameDay),
        };
        self.news.set(Some(news));
        (reports > 0).then_some(ring)
    }
}

/// A sound for a report.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ring {
    pub urgent: bool,
}

/// The line that says what came in. It lies over the page's lower edge, so that nothing moves under a finger.
#[component]
pub(super) fn NewsLine() -> Element {
    let page = use_page();
    let words = &page.words;
    let live = use_context::<LiveScreen>();
    let mut news = live.news;
    rsx! {
        div { class: "news", role: "status",
            if let Some(one) = news() {
                p {
                    a { href: "{one.address}", "{one.said}" }
                    button { r#type: "button", class: "quiet", onclick: move |_| news.set(None),
                        {words.say("artist.live.put_away").to_owned()}
                    }
                }
            }
        }
    }
}

/// The button that switches the sound on, or off again, on this device.
#[component]
pub(super) fn SoundSwitch() -> Element {
    let page = use_page();
    let words = &page.words;
    let live = use_context::<LiveScreen>();
    rsx! {
        footer { class: "foot",
            if let Some(on) = (live.sound)() {
                button { r#type: "button", class: "quiet", aria_pressed: "{on}", onclick: move |_| switch(live, !on),
                    {words.say(if on { "artist.live.sound_is_on" } else { "artist.live.sound_on" }).to_owned()}
                }
            }
        }
    }
}

fn switch(live: LiveScreen, on: bool) {
    #[cfg(target_arch = "wasm32")]
    phone::live::switch_sound(live, on);
    #[cfg(not(target_arch = "wasm32"))]
    let _ = (live, on);
}
