//! A compiler for the phone's wasm.

use std::env;
use std::path::Path;
use std::process::Command;

use super::debian_rust;
use crate::child;
use crate::failure::Failure;
use crate::places;
use crate::say;

pub const TARGET: &str = "wasm32-unknown-unknown";

/// A cargo that can compile for the browser, and what it must be told for that.
pub enum Compiler {
    Rustup,
    Debian(debian_rust::Toolchain),
}

impl Compiler {
    /// `cargo SUBCOMMAND` for the browser, in a target folder of its own.
    pub fn cargo(&self, subcommand: &str) -> Command {
        let mut cargo = match self {
            Self::Rustup => child::cargo(),
            Self::Debian(toolchain) => toolchain.cargo(),
        };
        cargo.args([subcommand, "--target", TARGET, "--target-dir"]);
        cargo.arg(places::target().join("phone"));
        if let Self::Debian(toolchain) = self {
            cargo.args(toolchain.options());
        }
        // Panic messages hold source paths: without this the same source would give another wasm, and another
        // build id, on every machine.
        cargo.env(
            "CARGO_ENCODED_RUSTFLAGS",
            format!("--remap-path-prefix={}=cargo", cargo_home()),
        );
        cargo
    }
}

/// Sees to it that something here compiles for the browser. `BETWEENTIMES_WASM=debian` asks for Debian's compiler
/// even where rustup's would do.
pub fn ensure() -> Result<Compiler, Failure> {
    if env::var_os("BETWEENTIMES_WASM").is_some_and(|choice| choice == "debian") {
        return debian_rust::ensure().map(Compiler::Debian);
    }
    if is_installed() {
        return Ok(Compiler::Rustup);
    }
    let mut add = child::command("rustup");
    add.args(["target", "add", TARGET]);
    say::step(&format!(
        "Adding the compiler's browser target: {}",
        child::typed(&add)
    ));
    if child::run(&mut add, "Adding the browser target").is_ok() && is_installed() {
        return Ok(Compiler::Rustup);
    }
    say::step("rustup could not fetch the browser target; trying Debian's compiler for it");
    debian_rust::ensure().map(Compiler::Debian)
}

fn is_installed() -> bool {
    child::answer(child::command("rustc").args(["--print", "target-libdir", "--target", TARGET]))
        .is_some_and(|folder| Path::new(&folder).is_dir())
}

fn cargo_home() -> String {
    env::var("CARGO_HOME")
        .unwrap_or_else(|_| format!("{}/.cargo", env::var("HOME").unwrap_or_default()))
}
