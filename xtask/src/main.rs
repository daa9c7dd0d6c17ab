//! How Betweentimes is set up, built, run and tested: `cargo xtask help` lists the commands.
//!
//! `setup` brings what a machine lacks, `site` builds what the phone downloads, `server` what serves it; `run`,
//! `testing` and `budget` are the commands over them.

mod budget;
mod child;
mod failure;
mod files;
mod places;
mod run;
mod say;
mod server;
mod setup;
mod site;
mod testing;

use std::env;
use std::process::ExitCode;

use failure::Failure;

const HELP: &str = "\
cargo xtask run [-- OPTIONS]   set up, build, and start the studio with its demonstration data
cargo xtask test [NAME]        set up, and run every test (or those whose name contains NAME)
cargo xtask build [--release]  build the browser side and the server
cargo xtask budget             print what the pages weigh against what they may weigh
cargo xtask load               compare how fast the client's page is served with a static file from nginx
cargo xtask help               print this";

fn main() -> ExitCode {
    let arguments: Vec<String> = env::args().skip(1).collect();
    let words: Vec<&str> = arguments.iter().map(String::as_str).collect();
    let outcome = match words.as_slice() {
        ["run"] => run::run(&[]),
        ["run", "--", options @ ..] => run::run(options),
        ["test"] => testing::test(None),
        ["test", name] => testing::test(Some(name)),
        ["build"] => build(server::Profile::Dev),
        ["build", "--release"] => build(server::Profile::Release),
        ["budget"] => budget::budget(),
        ["load"] => budget::load::load(),
        ["help" | "--help" | "-h"] => {
            println!("{HELP}");
            Ok(ExitCode::SUCCESS)
        }
        _ => Err(Failure::Usage {
            given: words.join(" "),
            help: HELP,
        }),
    };
    outcome.unwrap_or_else(|failure| {
        eprintln!("\n{failure}");
        ExitCode::FAILURE
    })
}

fn build(profile: server::Profile) -> Result<ExitCode, Failure> {
    let site = site::build()?;
    let studio = server::build(profile)?;
    println!(
        "Browser side: {} (build {})",
        site.folder.display(),
        site.build
    );
    println!("Server: {}", studio.display());
    Ok(ExitCode::SUCCESS)
}
