//! Everything that can go wrong here, as sentences that name the command which mends it.

use std::io;
use std::path::PathBuf;

use thiserror::Error;

#[derive(Debug, Error)]
pub enum Failure {
    #[error("`cargo xtask {given}` is not a command. These are:\n{help}")]
    Usage { given: String, help: &'static str },

    #[error("{what} did not succeed. What it said stands above; to see it alone, run: {command}")]
    Command { what: String, command: String },

    #[error("{what} could not be started ({source}). The command was: {command}")]
    Start {
        what: String,
        command: String,
        source: io::Error,
    },

    #[error("{missing} To mend it, run: {mend}")]
    Missing { missing: String, mend: String },

    #[error("Could not {action} {}: {source}. Check that the folder may be written to and that the disk has room.", path.display())]
    File {
        action: &'static str,
        path: PathBuf,
        source: io::Error,
    },

    #[error("The JavaScript beside {} could not be written: {reason}. To build it afresh, run: rm -r target/phone && cargo xtask build", wasm.display())]
    Glue { wasm: PathBuf, reason: String },

    #[error("The demonstration server {what}. To see it alone, run: cargo xtask run")]
    Demo { what: String },

    #[error("{} {what}. To write it afresh, run: {mend}", path.display())]
    Unreadable {
        path: PathBuf,
        what: String,
        mend: &'static str,
    },
}
