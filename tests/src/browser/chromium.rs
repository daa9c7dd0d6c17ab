//! Headless Chromium.

use std::{path::Path, process::Command};

use serde_json::json;
use thirtyfour::{Capabilities, CapabilitiesHelper, ChromiumLikeCapabilities, DesiredCapabilities};

use super::{Opening, Outcome, Process, program};

pub fn start(port: u16) -> Outcome<Process> {
    let driver = program("CHROMEDRIVER", "/usr/bin/chromedriver");
    Process::start(Command::new(driver).arg(format!("--port={port}")))
}

pub fn wishes(opening: &Opening, profile: &Path) -> Outcome<Capabilities> {
    let mut capabilities = DesiredCapabilities::chrome();
    if let Ok(chromium) = std::env::var("CHROMIUM") {
        capabilities.set_binary(&chromium)?;
    }
    for argument in [
        "--headless=new",
        "--no-sandbox",
        "--disable-gpu",
        "--disable-dev-shm-usage",
        "--disable-quic",
        "--no-first-run",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
        "--hide-scrollbars",
    ] {
        capabilities.add_arg(argument)?;
    }
    for argument in &opening.arguments {
        capabilities.add_arg(argument)?;
    }
    capabilities.add_arg(&format!("--user-data-dir={}", profile.display()))?;
    if !opening.javascript {
        let switched_off = json!({"profile.managed_default_content_settings.javascript": 2});
        capabilities.add_experimental_option("prefs", switched_off)?;
    }
    capabilities.set("goog:loggingPrefs", json!({"browser": "ALL"}))?;
    Ok(capabilities.into())
}
