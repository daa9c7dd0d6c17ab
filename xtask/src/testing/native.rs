//! Tests that run on this machine without a browser.

use super::runner;
use super::tally::Tally;
use crate::child;
use crate::failure::Failure;

pub fn run(name: Option<&str>) -> Result<Tally, Failure> {
    let mut cargo = child::cargo();
    cargo.arg("test");
    for package in ["shared-types", "content", "mobile", "studio", "xtask"] {
        cargo.args(["--package", package]);
    }
    runner::count(&mut cargo, name)
}
