//! A program that one test or measurement needs and nothing else does.

use std::path::PathBuf;

use super::apt;
use crate::child;
use crate::failure::Failure;

/// Where `program` is, installed with Debian's `package` where it is missing.
pub fn ensure(program: &str, package: &str, why: &str) -> Result<PathBuf, Failure> {
    if let Some(path) = child::on_path(&[program]) {
        return Ok(path);
    }
    apt::install(&[package], why)?;
    child::on_path(&[program]).ok_or_else(|| Failure::Missing {
        missing: format!("{program} is not on the search path."),
        mend: format!("apt-get install -y {package}"),
    })
}
