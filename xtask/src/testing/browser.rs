//! Tests of package `mobile` that need a browser around them.

use serde_json::json;

use super::runner;
use super::tally::Tally;
use crate::failure::Failure;
use crate::files;
use crate::places;
use crate::setup::chromium::Chromium;
use crate::setup::{chromium, test_runner, wasm_target};

/// Seconds a test binary may take in the browser: a slow machine is no failure.
const TIMEOUT: &str = "300";

pub fn run(name: Option<&str>) -> Result<Tally, Failure> {
    let chromium = chromium::ensure()?;
    let compiler = wasm_target::ensure()?;
    let runner = test_runner::ensure()?;

    let wishes = places::target().join("webdriver.json");
    files::write(&wishes, wishes_of(&chromium).to_string().as_bytes())?;
    let mut cargo = compiler.test();
    cargo
        .args(["--package", "mobile", "--tests"])
        .env("CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_RUNNER", runner)
        .env("CHROMEDRIVER", chromium.driver)
        .env("WASM_BINDGEN_TEST_WEBDRIVER_JSON", wishes)
        .env("WASM_BINDGEN_TEST_TIMEOUT", TIMEOUT)
        .env("WASM_BINDGEN_TEST_DRIVER_TIMEOUT", "60");
    runner::count(&mut cargo, name)
}

/// What the browser is asked for: no window, no sandbox (which Chromium refuses to root), no calls home.
fn wishes_of(chromium: &Chromium) -> serde_json::Value {
    json!({ "goog:chromeOptions": {
        "binary": chromium.browser,
        "args": [
            "--headless", "--no-sandbox", "--disable-gpu", "--disable-background-networking",
            "--disable-component-update", "--disable-sync", "--no-first-run",
        ],
    }})
}
