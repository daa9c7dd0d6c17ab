//! Units that need a browser around them. `cargo xtask test` carries them into headless Chromium.
#![cfg(target_arch = "wasm32")]

use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

wasm_bindgen_test_configure!(run_in_browser);

/// Everything else in here would prove nothing if it ran in anything but a browser.
#[wasm_bindgen_test]
fn a_browser_is_around_us() {
    let window = web_sys::window().expect("a window");
    let agent = window.navigator().user_agent().expect("a user agent");
    assert!(agent.contains("Mozilla"), "{agent}");
}
