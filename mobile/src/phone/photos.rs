//! The photos of a report, on the phone until the studio has them. What does the work is a module of its own, fetched only
//! by whoever chooses a photo (`assets/photos.js`).

use crate::client::trouble::Trouble;

/// How many were chosen for the report that is being written.
pub fn chosen() -> u8 {
    0
}

/// Listens for photos that are chosen, and hands over those that still wait.
pub fn begin(_page: &Trouble) {}

/// Hands over those of reports that the studio has.
pub fn hand_over(_path: &str) {}
