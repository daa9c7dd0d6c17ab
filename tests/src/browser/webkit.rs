//! WebKitGTK in a window of our own (`window.py`), on a screen of its own.

use std::{path::Path, process::Command};

use serde_json::json;
use thirtyfour::Capabilities;

use super::{Opening, Outcome, Process, ensure, program};

/// The screen, and the driver that opens its windows there.
pub fn start(port: u16) -> Outcome<Vec<Process>> {
    // It chooses a number that is free, and writes it.
    let mut screen = Command::new("Xvfb");
    screen.args(["-displayfd", "1", "-screen", "0", "1280x1024x24"]);
    screen.args(["-nolisten", "tcp"]);
    let (screen, number) = Process::start_and_read(&mut screen)?;
    let mut driver = Command::new(program("WEBKIT_DRIVER", "WebKitWebDriver"));
    driver
        .arg(format!("--port={port}"))
        .env("DISPLAY", format!(":{number}"))
        // There is nobody to read the page aloud to, and no settings to be kept.
        .env("NO_AT_BRIDGE", "1")
        .env("GSETTINGS_BACKEND", "memory");
    // The driver goes first when both are dropped.
    Ok(vec![Process::start(&mut driver)?, screen])
}

pub fn wishes(opening: &Opening, profile: &Path) -> Outcome<Capabilities> {
    ensure!(
        opening.arguments.is_empty(),
        "WebKit does not take Chromium's arguments"
    );
    let window = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/browser/window.py");
    let mut arguments = vec![
        format!("--width={}", opening.screen.width),
        format!("--height={}", opening.screen.height),
        format!("--profile={}", profile.display()),
    ];
    if !opening.javascript {
        arguments.push("--without-javascript".to_owned());
    }
    let mut capabilities = Capabilities::new();
    let browser = json!({"binary": window, "args": arguments});
    capabilities.set("webkitgtk:browserOptions", browser)?;
    Ok(capabilities)
}

/// What the console was told in all windows that kept what they store in this folder. What a page asked for that the
/// engine does not know is no complaint about the page.
pub fn console(profile: &Path) -> Outcome<Vec<String>> {
    let console = profile.join("console.txt");
    let told = match std::fs::read(console) {
        Ok(bytes) => String::from_utf8_lossy(&bytes).into_owned(),
        Err(_) => String::new(),
    };
    Ok(told
        .lines()
        .filter(|line| !line.is_empty())
        .filter(|line| !line.contains("Unrecognized Content-Security-Policy directive"))
        .map(str::to_owned)
        .collect())
}
