//! The program that carries the browser-side tests into Chromium.

use std::path::PathBuf;

use crate::child;
use crate::failure::Failure;
use crate::places;
use crate::say;

/// Builds the runner, which is a crate of ours so that Cargo.lock pins it, and gives its path.
pub fn ensure() -> Result<PathBuf, Failure> {
    say::step("Building the runner of the browser-side tests");
    let mut cargo = child::cargo();
    cargo.args(["build", "--package", "browser-runner"]);
    child::run(&mut cargo, "Building the runner of the browser-side tests")?;
    Ok(places::target().join("debug").join("browser-runner"))
}
