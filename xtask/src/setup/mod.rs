//! What a fresh machine lacks: one file per thing. Each looks first, says what it is about to run, runs it, and
//! looks again; what cannot be had is a failure that names the command to type.

mod apt;
pub mod axe;
pub mod chromium;
mod debian_rust;
pub mod esbuild;
mod fonts;
mod npm;
pub mod program;
pub mod python;
pub mod test_runner;
pub mod wasm_target;
pub mod webkit;
