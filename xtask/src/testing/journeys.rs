//! Package `tests`: checks against the outside world, and whole journeys through the real server and a real browser.

use super::runner;
use super::tally::Tally;
use crate::child;
use crate::failure::Failure;
use crate::server::{self, Profile};
use crate::setup::{axe, chromium, program, python, webkit};
use crate::site;

pub fn run(name: Option<&str>) -> Result<Tally, Failure> {
    let axe = axe::ensure()?;
    let python = python::ensure()?;
    let chromium = chromium::ensure()?;
    let webkit = webkit::ensure()?;
    program::ensure(
        "pdftoppm",
        "poppler-utils",
        "Reading back what is printed needs it.",
    )?;
    let site = site::build_bundled()?;
    let studio = server::build(Profile::Dev)?;

    let mut cargo = child::cargo();
    cargo
        .args(["test", "--package", "tests"])
        .env("BETWEENTIMES_STUDIO", studio)
        .env("BETWEENTIMES_SITE", site.folder)
        .env("BETWEENTIMES_AXE", axe)
        .env("BETWEENTIMES_PYTHON", python)
        .env("CHROMEDRIVER", chromium.driver)
        .env("CHROMIUM", chromium.browser)
        .env("WEBKIT_DRIVER", webkit);
    // What they measured is worth reading when all went well, too.
    runner::count(&mut cargo, name.into_iter().chain(["--show-output"]))
}
