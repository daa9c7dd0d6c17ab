//! PyPI's icalendar, a reader of calendar files that shares no code with the library that writes ours.

use std::path::{Path, PathBuf};

use super::apt;
use crate::child;
use crate::failure::Failure;
use crate::files;
use crate::places;
use crate::say;

const VERSION: &str = "7.3.2";

/// A Python that has the reader, in an environment of its own under `target/tools`.
pub fn ensure() -> Result<PathBuf, Failure> {
    let folder = places::tools().join(format!("icalendar-{VERSION}"));
    let python = folder.join("bin").join("python");
    if has_reader(&python) {
        return Ok(python);
    }
    say::step(&format!("Fetching icalendar {VERSION} from PyPI"));
    files::empty_folder(&folder)?;
    if !can_make_environments() {
        apt::install(
            &["python3", "python3-venv"],
            "Reading calendar files back needs Python and its venv.",
        )?;
    }
    child::run(
        child::command("python3").args(["-m", "venv"]).arg(&folder),
        "Making an environment for Python",
    )?;
    // Only what is built already: nothing that was fetched runs before we call it.
    let mut pip = child::command(&python);
    pip.args([
        "-m",
        "pip",
        "install",
        "--quiet",
        "--disable-pip-version-check",
        "--only-binary=:all:",
    ])
    .arg(format!("icalendar=={VERSION}"));
    child::run(&mut pip, "Fetching icalendar from PyPI")?;
    if has_reader(&python) {
        Ok(python)
    } else {
        Err(Failure::Missing {
            missing: format!("icalendar {VERSION} was fetched but does not run."),
            mend: "rm -r target/tools && cargo xtask test".to_owned(),
        })
    }
}

fn has_reader(python: &Path) -> bool {
    let version = "import icalendar; print(icalendar.__version__)";
    child::answer(child::command(python).args(["-c", version])).as_deref() == Some(VERSION)
}

/// Debian's Python comes without what fills an environment.
fn can_make_environments() -> bool {
    child::answer(child::command("python3").args(["-c", "import ensurepip, venv"])).is_some()
}
