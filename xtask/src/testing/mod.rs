//! `cargo xtask test`: every test there is, on this machine, with nothing left out in silence.

mod browser;
mod journeys;
mod native;
mod runner;
mod tally;

use std::process::ExitCode;

use crate::failure::Failure;
use crate::say;
use tally::Tally;

/// One kind of test: how it is run with an optional part of the names to run.
struct Stage {
    title: &'static str,
    run: fn(Option<&str>) -> Result<Tally, Failure>,
}

const STAGES: [Stage; 3] = [
    Stage {
        title: "Tests of the crates",
        run: native::run,
    },
    Stage {
        title: "Browser-side tests, in Chromium",
        run: browser::run,
    },
    Stage {
        title: "Checks against the outside world, and journeys in Chromium and WebKit",
        run: journeys::run,
    },
];

/// Runs all stages, whatever the outcome of the ones before, and closes with the counts.
pub fn test(name: Option<&str>) -> Result<ExitCode, Failure> {
    let mut total = Tally::default();
    for stage in STAGES {
        say::step(stage.title);
        let tally = (stage.run)(name).unwrap_or_else(|failure| {
            eprintln!("\n{failure}");
            Tally::one_failure()
        });
        // A stage without a single test is a stage that was not run; only a name may leave stages empty.
        let tally = if tally == Tally::default() && name.is_none() {
            eprintln!(
                "\n{}: not one test ran, which counts as a failure",
                stage.title
            );
            Tally::one_failure()
        } else {
            tally
        };
        say::step(&format!("{}: {tally}", stage.title));
        total += tally;
    }
    if total == Tally::default() {
        eprintln!("\nNo test has a name like that; cargo xtask test runs them all");
    }
    let good = total.failed == 0 && total.passed > 0;
    println!("betweentimes: {total}");
    Ok(if good {
        ExitCode::SUCCESS
    } else {
        ExitCode::FAILURE
    })
}
