//! From Rust to wasm.

use std::path::PathBuf;

use crate::child;
use crate::failure::Failure;
use crate::places;
use crate::say;
use crate::setup::wasm_target::{Compiler, TARGET};

/// The browser entries of package `mobile`: a client never downloads the artist's code.
const ENTRIES: [&str; 2] = ["client", "artist"];
const PROFILE: &str = "phone";

pub struct Compiled {
    pub name: &'static str,
    pub wasm: PathBuf,
}

pub fn entries(compiler: &Compiler) -> Result<Vec<Compiled>, Failure> {
    say::step("Compiling the browser side (about two minutes the first time)");
    let mut cargo = compiler.build();
    cargo.args([
        "--package",
        "mobile",
        "--features",
        "browser",
        "--bins",
        "--profile",
        PROFILE,
    ]);
    child::run(&mut cargo, "Compiling the browser side")?;
    let folder = places::target().join("phone").join(TARGET).join(PROFILE);
    Ok(ENTRIES
        .iter()
        .map(|name| Compiled {
            name,
            wasm: folder.join(format!("{name}.wasm")),
        })
        .collect())
}
