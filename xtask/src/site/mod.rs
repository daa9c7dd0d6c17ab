//! What browsers fetch under `/pkg/`: compiled, bundled, named by content, compressed, and listed in `manifest.json`.

mod bundle;
mod compile;
mod compress;
mod digest;
mod glue;
mod prune;
mod shelf;
mod sources;
mod styles;
mod worker;

use std::path::PathBuf;

use crate::failure::Failure;
use crate::files;
use crate::places;
use crate::say;
use crate::setup::{esbuild, wasm_target};
use shelf::Shelf;
use sources::Sources;

pub struct Site {
    pub folder: PathBuf,
    /// Names this build: the same sources give the same id, and HTML of another build is left unhydrated.
    pub build: String,
}

/// Builds the site, with what this machine has.
pub fn build() -> Result<Site, Failure> {
    build_with(esbuild::find())
}

/// Builds the site as it is delivered: bundled, with node installed for that where it is missing.
pub fn build_bundled() -> Result<Site, Failure> {
    build_with(Some(esbuild::ensure()?))
}

fn build_with(bundler: Option<esbuild::Bundler>) -> Result<Site, Failure> {
    let compiler = wasm_target::ensure()?;
    let entries = compile::entries(&compiler)?;
    let bundled = bundler.as_ref().map_or("none", esbuild::Bundler::version);
    let stamp = digest::Stamp::of(&entries, bundled)?;
    let folder = places::site();
    if let Some(build) = stamp.matches()? {
        return Ok(Site { folder, build });
    }

    say::step("Naming, bundling and compressing the browser side");
    let sources = Sources::gather(entries)?;
    let build = sources.build_id(bundled);
    let mut shelf = Shelf::open(&folder)?;
    for entry in &sources.entries {
        bundle::put(&mut shelf, entry, &build, bundler.as_ref())?;
    }
    styles::put(&mut shelf, &sources.styles, bundler.as_ref())?;
    for (name, bytes) in &sources.other {
        shelf.put(name, bytes)?;
    }
    let worker = worker::fill(&sources.worker, &build, shelf.names());
    shelf.put_unhashed("worker.js", worker.as_bytes())?;
    shelf.close(&build)?;
    stamp.keep(&build)?;
    Ok(Site { folder, build })
}

/// The names under which `manifest.json` lists what lies in the site: key to path below `/pkg/`.
pub fn manifest() -> Result<shelf::Names, Failure> {
    shelf::read_names(&files::read_text(&places::site().join("manifest.json"))?)
}
