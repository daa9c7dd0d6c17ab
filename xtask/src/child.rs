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

/// A command as a person would type it, with the variables that were set for it.
pub fn typed(command: &Command) -> String {
    let program = command.get_program();
    // Our own cargo is named by its whole path; whoever types it has it on the search path.
    let ours = env::var_os("CARGO").is_some_and(|cargo| cargo == program);
    let variables = command
        .get_envs()
        .filter_map(|(name, value)| Some(format!("{}={}", name.to_string_lossy(), quoted(value?))));
    variables
        .chain([quoted(if ours { OsStr::new("cargo") } else { program })])
        .chain(command.get_args().map(quoted))
        .collect::<Vec<_>>()
        .join(" ")
}

fn quoted(word: &OsStr) -> String {
    let word = word.to_string_lossy();
    let plain = |letter: char| letter.is_alphanumeric() || "-_./=:,@%+".contains(letter);
    if !word.chars().all(plain) {
        format!("'{}'", word.replace('\'', r"'\''"))
    } else {
        word.into_owned()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What is printed for typing must mean the same to a shell; the shell itself is the judge.
    #[test]
    fn a_shell_reads_a_typed_command_as_it_was_meant() {
        let mut printed = Command::new("printf");
        printed.args(["%s\n", "two words", "it's $HOME", "*"]);
        let read = answer(Command::new("sh").args(["-c", &typed(&printed)]));
        assert_eq!(read.as_deref(), Some("two words\nit's $HOME\n*"));
    }
}
