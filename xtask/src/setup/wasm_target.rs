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
    Rustup { sources: Sources },
    Debian(debian_rust::Toolchain),
}

/// Whether rustup's toolchain has the standard library's sources beside it.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Sources {
    Here,
    Missing,
}

/// Compiles the standard library along with the page, for size, and lets a panic stop the wasm without a word: what
/// would say where it happened is a tenth of the download. These switches are locked in a release compiler, so
/// RUSTC_BOOTSTRAP opens them.
const LEAN_OPTIONS: [&str; 2] = [
    "-Zbuild-std=std,panic_abort",
    "-Zbuild-std-features=optimize_for_size",
];
const LEAN_FLAGS: [&str; 3] = [
    "-Zunstable-options",
    "-Cpanic=immediate-abort",
    "-Zlocation-detail=none",
];

impl Compiler {
    /// `cargo build` of what is downloaded.
    pub fn build(&self) -> Command {
        let mut flags = vec![remap()];
        let mut cargo = self.cargo("build", "phone");
        if self.has_sources() {
            cargo.env("RUSTC_BOOTSTRAP", "1").args(LEAN_OPTIONS);
            flags.extend(LEAN_FLAGS.map(str::to_owned));
        }
        cargo.env("CARGO_ENCODED_RUSTFLAGS", flags.join("\u{1f}"));
        cargo
    }

    /// `cargo test` in the browser: with panics that say what failed.
    pub fn test(&self) -> Command {
        let mut cargo = self.cargo("test", "units");
        if let Self::Debian(toolchain) = self {
            cargo.args(toolchain.options());
        }
        cargo.env("CARGO_ENCODED_RUSTFLAGS", remap());
        cargo
    }

    /// Without the sources the page works too, and is a tenth heavier.
    fn has_sources(&self) -> bool {
        match self {
            Self::Rustup { sources } => *sources == Sources::Here,
            Self::Debian(_) => true,
        }
    }

    /// `cargo SUBCOMMAND` for the browser, in a target folder of its own.
    fn cargo(&self, subcommand: &str, folder: &str) -> Command {
        let mut cargo = match self {
            Self::Rustup { .. } => child::cargo(),
            Self::Debian(toolchain) => toolchain.cargo(),
        };
        cargo.args([subcommand, "--target", TARGET, "--target-dir"]);
        cargo.arg(places::target().join(folder));
        cargo
    }
}

/// Panic messages hold source paths: without this the same source would give another wasm, and another build id, on
/// every machine.
fn remap() -> String {
    format!("--remap-path-prefix={}=cargo", cargo_home())
}

/// Sees to it that something here compiles for the browser. `BETWEENTIMES_WASM=debian` asks for Debian's compiler
/// even where rustup's would do.
pub fn ensure() -> Result<Compiler, Failure> {
    if env::var_os("BETWEENTIMES_WASM").is_some_and(|choice| choice == "debian") {
        return debian_rust::ensure().map(Compiler::Debian);
    }
    if is_installed() {
        return Ok(Compiler::Rustup {
            sources: library_sources(),
        });
    }
    let mut add = child::command("rustup");
    add.args(["target", "add", TARGET]);
    say::step(&format!(
        "Adding the compiler's browser target: {}",
        child::typed(&add)
    ));
    if child::run(&mut add, "Adding the browser target").is_ok() && is_installed() {
        return Ok(Compiler::Rustup {
            sources: library_sources(),
        });
    }
    say::step("rustup could not fetch the browser target; trying Debian's compiler for it");
    debian_rust::ensure().map(Compiler::Debian)
}

/// Fetches the standard library's sources where they are missing.
fn library_sources() -> Sources {
    let are_here = || {
        child::answer(child::command("rustc").args(["--print", "sysroot"])).is_some_and(|sysroot| {
            Path::new(&sysroot)
                .join("lib/rustlib/src/rust/library/Cargo.lock")
                .is_file()
        })
    };
    if are_here() {
        return Sources::Here;
    }
    let mut add = child::command("rustup");
    add.args(["component", "add", "rust-src"]);
    say::step(&format!(
        "Adding the standard library's sources: {}",
        child::typed(&add)
    ));
    if child::run(&mut add, "Adding the sources").is_ok() && are_here() {
        return Sources::Here;
    }
    say::step("They cannot be had here; the page works without them, but is a tenth heavier");
    Sources::Missing
}

fn is_installed() -> bool {
    child::answer(child::command("rustc").args(["--print", "target-libdir", "--target", TARGET]))
        .is_some_and(|folder| Path::new(&folder).is_dir())
}

fn cargo_home() -> String {
    env::var("CARGO_HOME")
        .unwrap_or_else(|_| format!("{}/.cargo", env::var("HOME").unwrap_or_default()))
}
