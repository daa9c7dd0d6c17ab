//! An entry's scripts: one file where there is a bundler, else the glue's own modules in a folder named by content.

use std::collections::BTreeMap;

use super::digest;
use super::shelf::Shelf;
use super::sources::Entry;
use crate::child;
use crate::failure::Failure;
use crate::files;
use crate::setup::esbuild::Bundler;

/// Puts the entry's wasm on the shelf as `NAME.wasm` and the script to load as `NAME.js`.
pub fn put(
    shelf: &mut Shelf,
    entry: &Entry,
    build: &str,
    bundler: Option<&Bundler>,
) -> Result<(), Failure> {
    let wasm = shelf.put(&format!("{}.wasm", entry.name), &entry.wasm)?;
    let boot = |wasm: String| {
        entry
            .boot
            .replace("__BUILD__", build)
            .replace("__WASM__", &wasm)
    };
    match bundler {
        Some(bundler) => {
            let script = one_file(entry, &boot(wasm), bundler)?;
            shelf.put(&format!("{}.js", entry.name), &script)?;
        }
        None => several_files(shelf, entry, boot(format!("../{wasm}")))?,
    }
    Ok(())
}

fn one_file(entry: &Entry, boot: &str, bundler: &Bundler) -> Result<Vec<u8>, Failure> {
    let start = entry.glue.folder.join("boot.js");
    let joined = entry.glue.folder.join("bundle.js");
    files::write(&start, boot.as_bytes())?;
    let mut esbuild = child::command(&bundler.program);
    esbuild
        .arg(&start)
        .args([
            "--bundle",
            "--minify",
            "--format=esm",
            "--target=es2022",
            "--log-level=warning",
        ])
        .arg(format!("--outfile={}", joined.display()));
    child::run(
        &mut esbuild,
        &format!("Bundling the scripts of the {} page", entry.name),
    )?;
    files::read(&joined)
}

/// The modules import one another by relative paths, so it is their folder that carries the digest.
fn several_files(shelf: &mut Shelf, entry: &Entry, boot: String) -> Result<(), Failure> {
    let mut modules: BTreeMap<&str, &[u8]> = BTreeMap::from([("boot.js", boot.as_bytes())]);
    modules.extend(
        entry
            .scripts
            .iter()
            .map(|(path, bytes)| (path.as_str(), bytes.as_slice())),
    );
    let digest = digest::short(
        modules
            .iter()
            .flat_map(|(path, bytes)| [path.as_bytes(), *bytes]),
    );
    let folder = format!("{}.{digest}", entry.name);
    for (path, bytes) in modules {
        shelf.put_at(
            &format!("{}/{path}", entry.name),
            format!("{folder}/{path}"),
            bytes,
        )?;
    }
    shelf.call(
        &format!("{}.js", entry.name),
        &format!("{}/boot.js", entry.name),
    );
    Ok(())
}
