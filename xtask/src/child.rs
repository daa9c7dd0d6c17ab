//! Starting other programs.

use std::env;
use std::ffi::OsStr;
use std::path::PathBuf;
use std::process::{Command, Stdio};

use crate::failure::Failure;
use crate::places;

/// A command in the checkout's top folder, without what `cargo run` put into our environment: cargo and its
/// build scripts would take a changed variable for a reason to compile everything again.
pub fn command(program: impl AsRef<OsStr>) -> Command {
    let mut command = Command::new(program);
    command.current_dir(places::root());
    for (name, _) in env::vars_os() {
        let text = name.to_string_lossy();
        let ours = ["CARGO_PKG_", "CARGO_MANIFEST_", "CARGO_BIN_"];
        if ours.iter().any(|start| text.starts_with(start)) || text == "CARGO_TARGET_DIR" {
            command.env_remove(&name);
        }
    }
    command
}

/// The cargo that started us.
pub fn cargo() -> Command {
    command(env::var_os("CARGO").unwrap_or_else(|| "cargo".into()))
}

/// Runs a command with its output in view.
pub fn run(command: &mut Command, what: &str) -> Result<(), Failure> {
    let status = command
        .stdin(Stdio::null())
        .status()
        .map_err(|source| start_failure(command, what, source))?;
    if status.success() {
        Ok(())
    } else {
        Err(Failure::Command {
            what: what.to_owned(),
            command: typed(command),
        })
    }
}

/// Runs a command out of view; its standard output without surrounding blanks, or `None` where it is missing or failed.
pub fn answer(command: &mut Command) -> Option<String> {
    let output = command
        .stdin(Stdio::null())
        .stderr(Stdio::null())
        .output()
        .ok()?;
    let text = String::from_utf8(output.stdout).ok()?;
    output.status.success().then(|| text.trim().to_owned())
}

pub fn start_failure(command: &Command, what: &str, source: std::io::Error) -> Failure {
    Failure::Start {
        what: what.to_owned(),
        command: typed(command),
        source,
    }
}

/// The first of `names` that the search path holds.
pub fn on_path(names: &[&str]) -> Option<PathBuf> {
    let path = env::var_os("PATH")?;
    names.iter().find_map(|name| {
        env::split_paths(&path)
            .map(|folder| folder.join(name))
            .find(|file| file.is_file())
    })
}

/// A command as a person would type it.
pub fn typed(command: &Command) -> String {
    let program = command.get_program();
    // Our own cargo is named by its whole path; whoever types it has it on the search path.
    let ours = env::var_os("CARGO").is_some_and(|cargo| cargo == program);
    std::iter::once(if ours { OsStr::new("cargo") } else { program })
        .chain(command.get_args())
        .map(|word| word.to_string_lossy())
        .map(|word| {
            if word.contains(' ') {
                format!("'{word}'")
            } else {
                word.into_owned()
            }
        })
        .collect::<Vec<_>>()
        .join(" ")
}
