//! The studio's own binary.

use std::path::PathBuf;

use crate::child;
use crate::failure::Failure;
use crate::places;
use crate::say;

/// The dev profile is what `run` and `test` use: both share one compilation of every dependency, and the page's
/// weight and behaviour do not depend on it. Only measuring the server's speed needs the release profile.
#[derive(Clone, Copy)]
pub enum Profile {
    Dev,
    Release,
}

/// Builds the server and gives the path of its binary.
pub fn build(profile: Profile) -> Result<PathBuf, Failure> {
    say::step("Building the server (about two minutes the first time)");
    let (folder, option) = match profile {
        Profile::Dev => ("debug", None),
        Profile::Release => ("release", Some("--release")),
    };
    let mut cargo = child::cargo();
    cargo
        .args(["build", "--package", "studio", "--bin", "studio"])
        .args(option);
    child::run(&mut cargo, "Building the server")?;
    Ok(places::target().join(folder).join("studio"))
}
