//! Debian's own Rust, kept new for building browsers: the way to wasm where rustup cannot fetch its target.
//!
//! It has no compiled standard library for wasm, so that is built from its sources; and it has no linker for wasm,
//! so rustup's `rust-lld` links.

use std::path::{Path, PathBuf};
use std::process::Command;

use super::apt;
use super::wasm_target::TARGET;
use crate::child;
use crate::failure::Failure;

/// Compiler, package manager and library sources of one release; mixing releases does not build.
const PACKAGES: [&str; 3] = ["rustc-web", "cargo-web", "rust-web-src"];
const RUSTC: &str = "/usr/bin/rustc";
const CARGO: &str = "/usr/bin/cargo";
const LIBRARY: &str = "lib/rustlib/src/rust/library/Cargo.lock";

pub struct Toolchain {
    linker: PathBuf,
}

impl Toolchain {
    pub fn cargo(&self) -> Command {
        let mut cargo = child::command(CARGO);
        cargo
            .env("RUSTC", RUSTC)
            // The standard library can be built only with switches that a release compiler keeps locked.
            .env("RUSTC_BOOTSTRAP", "1")
            .env(linker_variable(), &self.linker)
            // Both point into rustup's toolchain.
            .env_remove("RUSTUP_TOOLCHAIN")
            .env_remove("LD_LIBRARY_PATH");
        cargo
    }

    pub fn options(&self) -> [&'static str; 1] {
        ["-Zbuild-std=std,panic_abort"]
    }
}

pub fn ensure() -> Result<Toolchain, Failure> {
    if !is_installed() {
        apt::install(&PACKAGES, "Compiling for the browser needs Debian's Rust.")?;
    }
    if !is_installed() {
        return Err(Failure::Missing {
            missing: "Debian's Rust and its library sources are still not whole.".to_owned(),
            mend: format!("apt-get install --reinstall -y {}", PACKAGES.join(" ")),
        });
    }
    Ok(Toolchain { linker: linker()? })
}

fn is_installed() -> bool {
    let sysroot = child::answer(child::command(RUSTC).args(["--print", "sysroot"]));
    Path::new(CARGO).is_file()
        && sysroot.is_some_and(|folder| Path::new(&folder).join(LIBRARY).exists())
}

fn linker() -> Result<PathBuf, Failure> {
    let missing = || Failure::Missing {
        missing: "The toolchain of rustup has no rust-lld to link wasm with.".to_owned(),
        mend: "rustup toolchain install stable --profile minimal".to_owned(),
    };
    let libraries = child::answer(child::command("rustc").args(["--print", "target-libdir"]))
        .ok_or_else(missing)?;
    let linker = Path::new(&libraries).with_file_name("bin").join("rust-lld");
    if linker.is_file() {
        Ok(linker)
    } else {
        Err(missing())
    }
}

fn linker_variable() -> String {
    format!(
        "CARGO_TARGET_{}_LINKER",
        TARGET.to_uppercase().replace('-', "_")
    )
}
