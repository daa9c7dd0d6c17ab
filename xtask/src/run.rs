//! `cargo xtask run`: the whole thing with its demonstration data, on this machine.

use std::os::unix::process::CommandExt;
use std::process::ExitCode;

use crate::child;
use crate::failure::Failure;
use crate::places;
use crate::say;
use crate::server::{self, Profile};
use crate::site;

/// Builds what is missing and becomes the server: its address, sign-in and client link are the server's to print.
pub fn run(options: &[&str]) -> Result<ExitCode, Failure> {
    let site = site::build()?;
    let studio = server::build(Profile::Dev)?;
    say::step("Starting the studio with its demonstration data; Ctrl-C ends it");
    let mut serve = child::command(studio);
    serve.args(["serve", "--demo", "--site"]).arg(&site.folder);
    if !options.iter().any(|option| option.starts_with("--data")) {
        serve.arg("--data").arg(places::target().join("demo"));
    }
    serve.args(options);
    let source = serve.exec();
    Err(child::start_failure(&serve, "The studio", source))
}
