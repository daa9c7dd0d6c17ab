//! What the client's phone downloads beside the page, as it lies compressed in the site.

use std::fs;

use crate::failure::Failure;
use crate::places;
use crate::site;

/// Bytes of the client's wasm.
pub fn client_wasm() -> Result<u64, Failure> {
    compressed(|key| key == "client.wasm")
}

/// Bytes of all the client's scripts together.
pub fn client_scripts() -> Result<u64, Failure> {
    compressed(|key| key == "client.js" || (key.starts_with("client/") && key.ends_with(".js")))
}

fn compressed(counts: impl Fn(&str) -> bool) -> Result<u64, Failure> {
    let names = site::manifest()?;
    let mut paths: Vec<&String> = names
        .iter()
        .filter(|(key, _)| counts(key))
        .map(|(_, path)| path)
        .collect();
    paths.sort();
    paths.dedup();
    let sizes = paths.into_iter().map(|path| {
        let file = places::site().join(format!("{path}.br"));
        fs::metadata(&file)
            .map(|data| data.len())
            .map_err(|source| Failure::File {
                action: "weigh",
                path: file,
                source,
            })
    });
    sizes.sum()
}
