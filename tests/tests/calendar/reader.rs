//! The other reader.

use serde_json::Value;
use tests::python::ask;

/// What PyPI's icalendar understands of a file.
pub fn read_back(file: &str) -> Value {
    ask(include_str!("read_back.py"), file)
}

/// The content lines of a file (RFC 5545 section 3.1).
pub fn unfolded(file: &str) -> Vec<String> {
    let whole = file.replace("\r\n ", "").replace("\r\n\t", "");
    whole.split_terminator("\r\n").map(str::to_owned).collect()
}
