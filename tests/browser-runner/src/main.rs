//! `wasm-bindgen`'s own test runner, as a program that Cargo.lock pins like any other crate: nothing to install,
//! and never another version than the tests were compiled for.

use std::env;
use std::process::ExitCode;

use wasm_bindgen_cli::wasm_bindgen_test_runner::run_cli_with_args;

fn main() -> ExitCode {
    match run_cli_with_args(env::args_os()) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("{error:#}");
            ExitCode::FAILURE
        }
    }
}
