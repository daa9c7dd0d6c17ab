//! Processes that end with the test.

use std::{
    io::{BufRead, BufReader},
    os::unix::process::CommandExt,
    process::{Child, Command, Stdio},
};

use anyhow::Context;

use super::Outcome;

/// A process and all that it started, which belong to its group: ending the group leaves nothing behind.
pub struct Process {
    child: Child,
    /// How it is told to end.
    signal: &'static str,
}

impl Process {
    pub fn start(command: &mut Command) -> Outcome<Self> {
        let child = command
            .stdin(Stdio::null())
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .process_group(0)
            .spawn()
            .with_context(|| failed(command))?;
        let signal = "-KILL";
        Ok(Self { child, signal })
    }

    /// The same for one that clears up after itself when it is asked to end, and the first line that it writes.
    pub fn start_and_read(command: &mut Command) -> Outcome<(Self, String)> {
        let mut child = command
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .process_group(0)
            .spawn()
            .with_context(|| failed(command))?;
        let written = child.stdout.take().context("what it writes")?;
        let signal = "-TERM";
        let process = Self { child, signal };
        let mut line = String::new();
        BufReader::new(written).read_line(&mut line)?;
        anyhow::ensure!(!line.is_empty(), "{}", failed(command));
        Ok((process, line.trim().to_owned()))
    }
}

fn failed(command: &Command) -> String {
    let program = command.get_program().to_string_lossy();
    format!("{program} could not be started; `cargo xtask test` installs it")
}

impl Drop for Process {
    fn drop(&mut self) {
        // They may have ended already; then there is nothing to do.
        let group = format!("-{}", self.child.id());
        let _ = Command::new("kill")
            .args([self.signal, "--", &group])
            .stderr(Stdio::null())
            .status();
        let _ = self.child.wait();
    }
}
