//! Second opinions: scripts for a Python that has other people's libraries.

use std::{
    io::Write,
    path::{Path, PathBuf},
    process::{Command, Stdio},
};

use serde_json::Value;

/// What a script answers as JSON, given this on its standard input.
pub fn ask(script: &str, input: &str) -> Value {
    let mut python = Command::new(python())
        .args(["-c", script])
        .env("PYTHONUTF8", "1")
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("Python starts");
    let mut stdin = python.stdin.take().expect("its input");
    stdin.write_all(input.as_bytes()).expect("it reads");
    drop(stdin);
    let output = python.wait_with_output().expect("its end");
    assert!(output.status.success(), "it cannot read:\n{input}");
    serde_json::from_slice(&output.stdout).expect("what it understood, as JSON")
}

/// A program that one of the libraries brings.
pub fn program(name: &str) -> PathBuf {
    let program = python().with_file_name(name);
    assert!(
        program.is_file(),
        "{name} is not beside the tests' Python: `cargo xtask test` fetches it"
    );
    program
}

/// The Python that has them.
pub fn python() -> PathBuf {
    if let Some(path) = std::env::var_os("BETWEENTIMES_PYTHON") {
        return path.into();
    }
    let tools = Path::new(env!("CARGO_MANIFEST_DIR")).join("../target/tools");
    let kept = std::fs::read_dir(tools).into_iter().flatten().flatten();
    // Of several the one that was set up last.
    kept.filter(|tool| tool.file_name().to_string_lossy().starts_with("python-"))
        .filter(|tool| tool.path().join("bin/python").is_file())
        .max_by_key(|tool| tool.metadata().and_then(|about| about.modified()).ok())
        .map(|tool| tool.path().join("bin/python"))
        .expect("PyPI's libraries are not here: `cargo xtask test` fetches them")
}
