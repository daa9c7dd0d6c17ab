//! Running one test command: everything it prints is passed on as it comes, and counted.

use std::io::{self, BufRead, BufReader, Write};
use std::process::{Command, Stdio};

use super::tally::Tally;
use crate::child;
use crate::failure::Failure;

/// Runs `cargo test …` to its end. A command that fails without a failed test, because something did not compile or
/// a test binary died, counts as one failure.
pub fn count(cargo: &mut Command, name: Option<&str>) -> Result<Tally, Failure> {
    cargo
        .arg("--no-fail-fast")
        .args(name.map(|name| ["--", name]).into_iter().flatten());
    let what = "Running the tests";
    let failed = |cargo: &Command, source| child::start_failure(cargo, what, source);
    let mut running = cargo
        .stdin(Stdio::null())
        .stdout(Stdio::piped())
        .spawn()
        .map_err(|source| failed(cargo, source))?;

    let mut tally = Tally::default();
    if let Some(output) = running.stdout.take() {
        for line in BufReader::new(output).split(b'\n') {
            let mut line = line.map_err(|source| failed(cargo, source))?;
            if let Some(counts) = Tally::from_line(&String::from_utf8_lossy(&line)) {
                tally += counts;
            }
            line.push(b'\n');
            // Whoever reads us may have gone; the counting goes on.
            let _ = io::stdout().write_all(&line);
        }
    }
    let status = running.wait().map_err(|source| failed(cargo, source))?;
    if !status.success() && tally.failed == 0 {
        eprintln!(
            "\n{what} did not succeed. To see it alone, run: {}",
            child::typed(cargo)
        );
        tally += Tally::one_failure();
    }
    Ok(tally)
}
