//! Packages of npm, each pinned and in a folder of its own under `target/tools`.

use std::path::PathBuf;

use super::apt;
use crate::child;
use crate::failure::Failure;
use crate::files;
use crate::places;
use crate::say;

pub fn is_here() -> bool {
    child::on_path(&["node"]).is_some() && child::on_path(&["npm"]).is_some()
}

/// Sees to it that `node` and `npm` are here.
pub fn ensure() -> Result<(), Failure> {
    if is_here() {
        return Ok(());
    }
    let wanted: &[&str] = match child::on_path(&["node"]) {
        Some(_) => &["npm"],
        None => &["nodejs", "npm"],
    };
    apt::install(
        wanted,
        "Bundling scripts and checking accessibility need node and npm.",
    )
}

/// The folder of package `name` at exactly `version`, fetched where it is not yet here.
pub fn package(name: &str, version: &str) -> Result<PathBuf, Failure> {
    let folder = places::tools().join(format!("{name}-{version}"));
    let installed = folder.join("node_modules").join(name);
    if !installed.join("package.json").is_file() {
        say::step(&format!("Fetching {name} {version} from npm"));
        files::empty_folder(&folder)?;
        let mut npm = child::command("npm");
        // No install scripts: nothing that was fetched runs before we call it.
        npm.args([
            "install",
            "--ignore-scripts",
            "--no-audit",
            "--no-fund",
            "--loglevel=error",
            "--prefix",
        ])
        .arg(&folder)
        .arg(format!("{name}@{version}"));
        child::run(&mut npm, &format!("Fetching {name} from npm"))?;
    }
    Ok(installed)
}
