//! esbuild, which joins an entry's scripts into one file and makes scripts and styles smaller.

use std::path::PathBuf;

use super::npm;
use crate::child;
use crate::failure::Failure;
use crate::say;

const VERSION: &str = "0.28.2";

/// A bundler that works on this machine.
pub struct Bundler {
    pub program: PathBuf,
}

impl Bundler {
    /// What makes its output differ from that of another bundler.
    pub fn version(&self) -> &'static str {
        VERSION
    }
}

/// The bundler where node is on this machine, `None` where it is not: the site then works with more, larger files.
pub fn find() -> Option<Bundler> {
    if !npm::is_here() {
        say::step(
            "Without node the scripts stay in several files; `apt-get install nodejs npm` makes them one",
        );
        return None;
    }
    match fetch() {
        Ok(bundler) => Some(bundler),
        Err(failure) => {
            say::step(&format!("The scripts stay in several files. {failure}"));
            None
        }
    }
}

/// The bundler, with node installed for it where that is missing.
pub fn ensure() -> Result<Bundler, Failure> {
    npm::ensure()?;
    fetch()
}

fn fetch() -> Result<Bundler, Failure> {
    let program = npm::package("esbuild", VERSION)?
        .join("bin")
        .join("esbuild");
    let answered = child::answer(child::command(&program).arg("--version"));
    if answered.as_deref() == Some(VERSION) {
        Ok(Bundler { program })
    } else {
        Err(Failure::Missing {
            missing: format!("esbuild {VERSION} was fetched but does not run."),
            mend: "rm -r target/tools && cargo xtask build".to_owned(),
        })
    }
}
