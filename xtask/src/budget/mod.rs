//! `cargo xtask budget`: what the client's page weighs against what it may weigh.

mod demo;
pub mod load;
mod page;
mod requests;
mod sizes;
mod table;

use std::process::ExitCode;

use crate::failure::Failure;
use crate::server::{self, Profile};
use crate::site;
use table::Table;

// The limits of the design's section 11; bytes are brotli, as sent.
const HTML_BYTES: u64 = 13_000;
const WASM_BYTES: u64 = 150_000;
const SCRIPT_BYTES: u64 = 12_000;
const REQUESTS: u64 = 4;

/// Prints the figures. Over a limit, or with a figure that could not be had, it does not succeed.
pub fn budget() -> Result<ExitCode, Failure> {
    let site = site::build_bundled()?;
    let studio = server::build(Profile::Dev)?;

    let mut table = Table::default();
    table.limited("client wasm, brotli", "B", sizes::client_wasm(), WASM_BYTES);
    table.limited(
        "client script, brotli",
        "B",
        sizes::client_scripts(),
        SCRIPT_BYTES,
    );
    let demo = demo::start(&studio, &site);
    for (what, below) in [
        ("heaviest client page with its styles, brotli", ""),
        ("heaviest page of what to do, the same", "/trouble"),
    ] {
        let html = match &demo {
            Ok(demo) => page::heaviest(&demo.client_links, below),
            Err(failure) => Err(Failure::Demo {
                what: failure.to_string(),
            }),
        };
        table.limited(what, "B", html, HTML_BYTES);
    }
    match requests::read() {
        Ok(measured) => {
            table.limited(
                "requests after the page",
                "",
                Ok(measured.after_page),
                REQUESTS,
            );
            table.limited("requests to another host", "", Ok(measured.other_hosts), 0);
            for (what, milliseconds) in measured.times {
                table.figure(&what, "ms", milliseconds);
            }
        }
        Err(failure) => table.limited("requests after the page", "", Err(failure), REQUESTS),
    }
    table.print();
    Ok(if table.holds() {
        ExitCode::SUCCESS
    } else {
        ExitCode::FAILURE
    })
}
