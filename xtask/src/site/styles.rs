//! Style sheets: whole, because the server writes them into the page, and smaller where there is a bundler.

use std::collections::BTreeMap;

use super::shelf::Shelf;
use crate::child;
use crate::failure::Failure;
use crate::files;
use crate::places;
use crate::setup::esbuild::Bundler;

/// Puts every sheet on the shelf under its file name.
pub fn put(
    shelf: &mut Shelf,
    styles: &BTreeMap<String, Vec<u8>>,
    bundler: Option<&Bundler>,
) -> Result<(), Failure> {
    for (name, bytes) in styles {
        match bundler {
            Some(bundler) => shelf.put(name, &smaller(name, bytes, bundler)?)?,
            None => shelf.put(name, bytes)?,
        };
    }
    Ok(())
}

fn smaller(name: &str, bytes: &[u8], bundler: &Bundler) -> Result<Vec<u8>, Failure> {
    let folder = places::target().join("glue").join("styles");
    let (whole, minified) = (folder.join(name), folder.join("minified").join(name));
    files::write(&whole, bytes)?;
    let mut esbuild = child::command(&bundler.program);
    esbuild
        .arg(&whole)
        .args(["--minify", "--log-level=warning"])
        .arg(format!("--outfile={}", minified.display()));
    child::run(&mut esbuild, &format!("Minifying {name}"))?;
    files::read(&minified)
}
