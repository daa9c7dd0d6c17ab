//! Chromium and its WebDriver, which the tests in a browser drive.

use std::env;
use std::path::{Path, PathBuf};

use super::{apt, fonts};
use crate::child;
use crate::failure::Failure;

pub struct Chromium {
    pub browser: PathBuf,
    pub driver: PathBuf,
}

/// A browser and a driver that both start; `CHROMIUM` and `CHROMEDRIVER` name others than those of the search path.
pub fn ensure() -> Result<Chromium, Failure> {
    if find().is_none() {
        // Ubuntu's packages carry other names than Debian's.
        let names: &[&str] =
            if apt::offers("chromium-driver") || !apt::offers("chromium-chromedriver") {
                &["chromium", "chromium-driver"]
            } else {
                &["chromium-browser", "chromium-chromedriver"]
            };
        apt::install(
            names,
            "The tests in a browser need Chromium and its driver.",
        )?;
    }
    fonts::ensure()?;
    let chromium = find().ok_or_else(|| Failure::Missing {
        missing: "Chromium or its driver is still not on this machine, or does not start.".to_owned(),
        mend: "apt-get install -y chromium chromium-driver; or name yours: CHROMIUM=… CHROMEDRIVER=… cargo xtask test"
            .to_owned(),
    })?;
    Ok(chromium)
}

fn find() -> Option<Chromium> {
    Some(Chromium {
        browser: named(
            "CHROMIUM",
            &["chromium", "chromium-browser", "google-chrome"],
        )?,
        driver: named("CHROMEDRIVER", &["chromedriver"])?,
    })
}

/// The program the variable names, else the first on the search path; only one that tells its version counts,
/// because some packages of that name are empty shells.
fn named(variable: &str, names: &[&str]) -> Option<PathBuf> {
    let program = env::var_os(variable)
        .map(PathBuf::from)
        .or_else(|| child::on_path(names))?;
    starts(&program).then_some(program)
}

fn starts(program: &Path) -> bool {
    child::answer(child::command(program).arg("--version")).is_some()
}
