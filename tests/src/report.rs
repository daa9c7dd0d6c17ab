//! A report as a phone sends it.

use serde_json::{Value, json};

/// The version of the consents that pages show; tests that go through a page take it from there.
pub const CONSENT: &str = "2026-12";

/// With a few answers and these words.
pub fn report(words: &str) -> Value {
    json!({
        "answers": {"redness": 2, "itch": 1, "swelling": "none", "trend": "same"},
        "places": ["right_brow"],
        "words": words,
        "reach": "",
        "consents": {"report": CONSENT, "photos": null, "supplier": null},
        "told": null,
        "photos": 0,
    })
}
