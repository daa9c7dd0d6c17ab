//! The command line: the same questions as the pages ask, from JSON on standard input to JSON on standard output, so
//! that anyone can audit the rules without a browser.

pub mod batches;
pub mod care_plan;
pub mod error;
pub mod forecast;
mod input;
mod observations;
pub mod urgency;

#[cfg(test)]
mod asking;

pub use error::CliError;
