//! The `studio` command.

use std::{
    io::{Read, Write},
    path::Path,
    process::ExitCode,
};

use clap::Parser;
use content::{Content, ContentError};
use studio::{
    cli, openapi,
    options::{Command, Options},
    serve,
};

fn main() -> ExitCode {
    match Options::parse().command {
        Command::Serve(options) => match serve::run(*options) {
            Ok(()) => ExitCode::SUCCESS,
            Err(error) => complain(&error, 1),
        },
        Command::CarePlan { content } => answer(content.as_deref(), cli::care_plan::care_plan),
        Command::Batches { content } => answer(content.as_deref(), cli::batches::batches),
        Command::Urgency { content } => answer(content.as_deref(), cli::urgency::urgency),
        Command::Openapi => describe(),
        Command::Forecast { content } => answer(content.as_deref(), cli::forecast::forecast),
    }
}

/// Answers a question: JSON on standard input to JSON on standard output.
fn answer<E: std::fmt::Display>(
    folder: Option<&Path>,
    question: fn(&str, &Content) -> Result<String, E>,
) -> ExitCode {
    let content = match read_content(folder) {
        Ok(content) => content,
        Err(error) => return complain(&error, 1),
    };
    let mut input = String::new();
    if let Err(error) = std::io::stdin().read_to_string(&mut input) {
        return complain(&format!("standard input could not be read: {error}"), 2);
    }
    match question(&input, &content) {
        // A reader that has gone away is no failure of the answer.
        Ok(answer) => {
            let _ = writeln!(std::io::stdout(), "{answer}");
            ExitCode::SUCCESS
        }
        Err(error) => complain(&error, 2),
    }
}

/// Prints the description of the JSON API.
fn describe() -> ExitCode {
    match Content::built_in() {
        Ok(content) => {
            let description = openapi::description(&content);
            let _ = writeln!(std::io::stdout(), "{description:#}");
            ExitCode::SUCCESS
        }
        Err(error) => complain(&error, 1),
    }
}

fn read_content(folder: Option<&Path>) -> Result<Content, ContentError> {
    folder.map_or_else(Content::built_in, Content::from_folder)
}

fn complain(error: &dyn std::fmt::Display, status: u8) -> ExitCode {
    eprintln!("studio: {error}");
    ExitCode::from(status)
}
