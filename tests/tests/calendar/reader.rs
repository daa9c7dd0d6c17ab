//! The other reader.

use std::{
    io::Write,
    path::{Path, PathBuf},
    process::{Command, Stdio},
};

use serde_json::Value;

const SCRIPT: &str = include_str!("read_back.py");

/// What PyPI's icalendar understands of a file.
pub fn read_back(file: &str) -> Value {
    let mut reader = Command::new(python())
        .args(["-c", SCRIPT])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("the reader starts");
    let mut stdin = reader.stdin.take().expect("its input");
    stdin.write_all(file.as_bytes()).expect("it reads");
    drop(stdin);
    let output = reader.wait_with_output().expect("its end");
    assert!(output.status.success(), "it cannot read:\n{file}");
    serde_json::from_slice(&output.stdout).expect("what it understood, as JSON")
}

/// The content lines of a file (RFC 5545 section 3.1).
pub fn unfolded(file: &str) -> Vec<String> {
    let whole = file.replace("\r\n ", "").replace("\r\n\t", "");
    whole.split_terminator("\r\n").map(str::to_owned).collect()
}

fn python() -> PathBuf {
    if let Some(path) = std::env::var_os("BETWEENTIMES_CALENDAR_READER") {
        return path.into();
    }
    let tools = Path::new(env!("CARGO_MANIFEST_DIR")).join("../target/tools");
    let kept = std::fs::read_dir(tools).into_iter().flatten().flatten();
    kept.filter(|tool| tool.file_name().to_string_lossy().starts_with("icalendar-"))
        .map(|tool| tool.path().join("bin/python"))
        .find(|python| python.is_file())
        .expect("PyPI's icalendar is not here: `cargo xtask test` fetches it")
}
