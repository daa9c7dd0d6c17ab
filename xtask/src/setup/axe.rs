//! axe-core, the accessibility checks that journeys run inside each page.

use std::path::PathBuf;

use super::npm;
use crate::failure::Failure;

const VERSION: &str = "4.14.1";

/// The path of the script to inject.
pub fn ensure() -> Result<PathBuf, Failure> {
    npm::ensure()?;
    Ok(npm::package("axe-core", VERSION)?.join("axe.min.js"))
}
