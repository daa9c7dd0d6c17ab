//! Running one test command: everything it prints is passed on as it comes, and counted.

use std::io::{self, BufRead, BufReader, PipeReader, Write};
use std::process::{Child, Command, Stdio};
use std::sync::mpsc::{self, Receiver};
use std::thread;
use std::time::Duration;

use super::tally::Tally;
use crate::child;
use crate::failure::Failure;

/// How long to wait for more once the command has ended: a browser that a failed test left behind can hold the pipe
/// open for ever.
const GRACE: Duration = Duration::from_secs(5);

/// Runs `cargo test …` to its end, with `options` for the test binaries: a name to filter by, and the like. A command that fails without a failed test, because something did not compile or
/// a test binary died, counts as one failure.
pub fn count<'a>(
    cargo: &mut Command,
    options: impl IntoIterator<Item = &'a str>,
) -> Result<Tally, Failure> {
    count_passing_on(cargo, options, io::stdout())
}

fn count_passing_on<'a>(
    cargo: &mut Command,
    options: impl IntoIterator<Item = &'a str>,
    reader: impl Write + Send + 'static,
) -> Result<Tally, Failure> {
    cargo.args(["--no-fail-fast", "--"]).args(options);
    let what = "Running the tests";
    let failed = |cargo: &Command, source| child::start_failure(cargo, what, source);
    let (output, mut running) = start(cargo).map_err(|source| failed(cargo, source))?;
    let counts = pass_on(output, reader);
    let status = running.wait().map_err(|source| failed(cargo, source))?;

    let mut tally = Tally::default();
    while let Ok(more) = counts.recv_timeout(GRACE) {
        tally += more;
    }
    if !status.success() && tally.failed == 0 {
        eprintln!(
            "\n{what} did not succeed. To see it alone, run: {}",
            child::typed(cargo)
        );
        tally += Tally::one_failure();
    }
    Ok(tally)
}

/// One pipe for both of its outputs, so that each result stands below the name of the file it came from.
fn start(cargo: &mut Command) -> io::Result<(PipeReader, Child)> {
    let (reader, writer) = io::pipe()?;
    cargo
        .stdin(Stdio::null())
        .stdout(writer.try_clone()?)
        .stderr(writer);
    let running = cargo.spawn()?;
    // The command keeps our ends of the pipe; reading would never end while they are open.
    cargo.stdout(Stdio::null()).stderr(Stdio::null());
    Ok((reader, running))
}

/// Writes every line to `reader` and gives what each counts for.
fn pass_on(output: PipeReader, mut reader: impl Write + Send + 'static) -> Receiver<Tally> {
    let (counts, counted) = mpsc::channel();
    thread::spawn(move || {
        for mut line in BufReader::new(output).split(b'\n').map_while(Result::ok) {
            let tally = Tally::from_line(&String::from_utf8_lossy(&line));
            line.push(b'\n');
            // Whoever reads us, or waits for the counts, may have gone; that is no reason to stop the other.
            let _ = reader.write_all(&line);
            let _ = counts.send(tally.unwrap_or_default());
        }
    });
    counted
}

#[cfg(test)]
mod tests {
    use super::*;

    fn counted(script: &str) -> Tally {
        let mut shell = Command::new("sh");
        // What `count` adds becomes the script's own arguments.
        shell.args(["-c", script, "sh"]);
        // Into nowhere: the lines are made up, and whoever counts this test's own output would count them too.
        count_passing_on(&mut shell, None, io::sink()).expect("a shell")
    }

    #[test]
    fn adds_up_the_lines_of_both_outputs() {
        let script = "echo 'test result: ok. 2 passed; 0 failed; 0 ignored'
                      echo 'test result: ok. 3 passed; 0 failed; 1 ignored' >&2";
        assert_eq!(
            counted(script),
            Tally {
                passed: 5,
                failed: 1
            }
        );
    }

    #[test]
    fn a_command_that_dies_without_a_failed_test_is_one_failure() {
        let script = "echo 'test result: ok. 2 passed; 0 failed; 0 ignored'; exit 101";
        assert_eq!(
            counted(script),
            Tally {
                passed: 2,
                failed: 1
            }
        );
    }

    #[test]
    fn a_child_left_behind_does_not_keep_us() {
        // The reader would wait for the whole minute that the sleeper holds the pipe.
        let script = "sleep 60 & echo 'test result: ok. 1 passed; 0 failed; 0 ignored'";
        assert_eq!(
            counted(script),
            Tally {
                passed: 1,
                failed: 0
            }
        );
    }
}
