//! Counting from what the test runners themselves say.

use std::fmt;
use std::ops::AddAssign;

/// Tests that ran and tests that did not come off; a test that was ignored did not come off.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Tally {
    pub passed: u64,
    pub failed: u64,
}

impl Tally {
    /// What could not be run at all.
    pub fn one_failure() -> Self {
        Self {
            passed: 0,
            failed: 1,
        }
    }

    /// The counts of a runner's closing line, `None` for any other line.
    pub fn from_line(line: &str) -> Option<Self> {
        let (_, result) = line.split_once("test result: ")?;
        let count = |what: &str| {
            let (before, _) = result.split_once(what)?;
            before.rsplit([' ', '.', ';']).next()?.parse::<u64>().ok()
        };
        let failed = count(" failed")?;
        Some(Self {
            passed: count(" passed")?,
            failed: failed + count(" ignored")?,
        })
    }
}

impl AddAssign for Tally {
    fn add_assign(&mut self, other: Self) {
        self.passed += other.passed;
        self.failed += other.failed;
    }
}

impl fmt::Display for Tally {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(formatter, "{} passed, {} failed", self.passed, self.failed)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    // Lines as printed by cargo 1.95 and by wasm-bindgen's runner 0.2.130, copied from their output.

    #[test]
    fn reads_the_closing_line_of_rusts_own_runner() {
        let line = "test result: FAILED. 12 passed; 3 failed; 1 ignored; 0 measured; 2 filtered out; finished in 0.05s";
        assert_eq!(
            Tally::from_line(line),
            Some(Tally {
                passed: 12,
                failed: 4
            })
        );
    }

    #[test]
    fn reads_the_closing_line_of_the_browsers_runner() {
        let line =
            "test result: ok. 7 passed; 0 failed; 0 ignored; 0 filtered out; finished in 0.02s";
        assert_eq!(
            Tally::from_line(line),
            Some(Tally {
                passed: 7,
                failed: 0
            })
        );
    }

    #[test]
    fn counts_nothing_in_other_lines() {
        assert_eq!(Tally::from_line("test care_plan::merges ... ok"), None);
        assert_eq!(Tally::from_line("no tests to run!"), None);
    }
}
