//! WebKit as a stand-in for Safari: WebKitGTK's driver, a screen that nobody sees, and what lets Debian's Python open a
//! window with the engine in it (`tests/src/browser/window.py`).

use std::path::{Path, PathBuf};

use super::{apt, fonts};
use crate::child;
use crate::failure::Failure;

/// Debian's own Python: its packages are of no use to another.
const PYTHON: &str = "/usr/bin/python3";
const PACKAGES: [&str; 5] = [
    "webkit2gtk-driver",
    "gir1.2-webkit2-4.1",
    "python3",
    "python3-gi",
    "xvfb",
];

/// The driver; `WEBKIT_DRIVER` names another than that of the search path.
pub fn ensure() -> Result<PathBuf, Failure> {
    if find().is_none() {
        apt::install(
            &PACKAGES,
            "The tests in WebKit need its driver and a screen.",
        )?;
    }
    fonts::ensure()?;
    find().ok_or_else(|| Failure::Missing {
        missing: "WebKit or its driver is still not on this machine, or does not start.".to_owned(),
        mend: format!("apt-get install -y {}", PACKAGES.join(" ")),
    })
}

fn find() -> Option<PathBuf> {
    let driver = std::env::var_os("WEBKIT_DRIVER")
        .map(PathBuf::from)
        .or_else(|| child::on_path(&["WebKitWebDriver"]))?;
    child::on_path(&["Xvfb"])?;
    (starts(&driver) && has_engine()).then_some(driver)
}

fn starts(driver: &Path) -> bool {
    child::answer(child::command(driver).arg("--help")).is_some()
}

fn has_engine() -> bool {
    let ask = "import gi; gi.require_version('WebKit2', '4.1'); from gi.repository import WebKit2";
    child::answer(child::command(PYTHON).args(["-c", ask])).is_some()
}
