//! Which content this is: what was declared, and a fingerprint that nobody can forget to change.

use sha2::{Digest, Sha256};

use crate::files::Files;

/// Enough to tell apart the versions that one studio ever had; it is not a signature.
const FINGERPRINT_BYTES: usize = 4;

pub fn of(declared: &str, files: &Files) -> String {
    let mut hash = Sha256::new();
    for (path, text) in &files.0 {
        // Lengths keep the end of one text from being taken for the start of the next.
        for part in [path, text] {
            hash.update((part.len() as u64).to_be_bytes());
            hash.update(part.as_bytes());
        }
    }
    let fingerprint: String = hash
        .finalize()
        .iter()
        .take(FINGERPRINT_BYTES)
        .map(|byte| format!("{byte:02x}"))
        .collect();
    format!("{declared}-{fingerprint}")
}
