//! A short sound, made on the spot (Web Audio). Browsers let a page sound only after it was touched.

use std::cell::RefCell;

use gloo_storage::{LocalStorage, Storage};
use wasm_bindgen::{JsCast, closure::Closure};
use web_sys::{AudioContext, AudioContextState, OscillatorType};

const WISHED: &str = "betweentimes:studio:sound";

/// Two tones a fourth apart, like a bell at a counter: Hz, and seconds from the beginning.
const TONES: [(f32, f64); 2] = [(660.0, 0.0), (880.0, 0.18)];
const TONE_SECONDS: f64 = 0.35;
/// Not full: it is heard beside a client.
const LOUDNESS: f32 = 0.25;
/// What is urgent sounds so many times, this many seconds apart.
const URGENT_TIMES: u32 = 3;
const URGENT_EVERY: f64 = 0.9;

thread_local! {
    static CONTEXT: RefCell<Option<AudioContext>> = const { RefCell::new(None) };
}

/// Whether a sound is wished for on this device.
pub fn is_wished() -> bool {
    LocalStorage::raw()
        .get_item(WISHED)
        .ok()
        .flatten()
        .is_some()
}

pub fn wish(on: bool) {
    let storage = LocalStorage::raw();
    let _ = if on {
        storage.set_item(WISHED, "yes")
    } else {
        storage.remove_item(WISHED)
    };
}

/// Sounds, as far as the browser lets it.
pub fn ring(urgent: bool) {
    let Some(context) = context() else {
        return;
    };
    let times = if urgent { URGENT_TIMES } else { 1 };
    let begin = context.current_time();
    for time in 0..times {
        for (pitch, after) in TONES {
            let _ = tone(
                &context,
                pitch,
                begin + after + f64::from(time) * URGENT_EVERY,
            );
        }
    }
}

fn tone(context: &AudioContext, pitch: f32, at: f64) -> Result<(), wasm_bindgen::JsValue> {
    let (source, loudness) = (context.create_oscillator()?, context.create_gain()?);
    source.set_type(OscillatorType::Sine);
    source.frequency().set_value(pitch);
    let gain = loudness.gain();
    // It swells for an instant and then dies away: without that there is a click.
    gain.set_value_at_time(0.0, at)?;
    gain.linear_ramp_to_value_at_time(LOUDNESS, at + 0.02)?;
    gain.exponential_ramp_to_value_at_time(0.001, at + TONE_SECONDS)?;
    source
        .connect_with_audio_node(&loudness)?
        .connect_with_audio_node(&context.destination())?;
    source.start_with_when(at)?;
    source.stop_with_when(at + TONE_SECONDS)
}

/// The one context of this page, awake if the browser lets it.
fn context() -> Option<AudioContext> {
    CONTEXT.with_borrow_mut(|kept| {
        if kept.is_none() {
            *kept = AudioContext::new().ok();
        }
        let context = kept.as_ref()?;
        if context.state() == AudioContextState::Suspended {
            let _ = context.resume();
        }
        Some(context.clone())
    })
}

/// On a page that was just opened nothing may sound yet: the first touch anywhere wakes it.
pub fn wake_with_first_touch() {
    let Some(document) = web_sys::window().and_then(|window| window.document()) else {
        return;
    };
    let wake = Closure::<dyn FnMut()>::new(|| {
        if is_wished() {
            context();
        }
    });
    for event in ["pointerup", "keydown"] {
        let _ = document.add_event_listener_with_callback(event, wake.as_ref().unchecked_ref());
    }
    wake.forget();
}
