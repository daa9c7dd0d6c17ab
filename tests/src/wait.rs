//! Waiting for what happens by itself. How long it takes is the machine's affair.

use std::{
    thread,
    time::{Duration, Instant},
};

/// A machine under load may need long.
const PATIENCE: Duration = Duration::from_secs(60);
const LOOK_AGAIN: Duration = Duration::from_millis(20);

/// What `look` finds, once it finds something.
pub fn until<T>(what: &str, mut look: impl FnMut() -> Option<T>) -> T {
    let begun = Instant::now();
    loop {
        if let Some(found) = look() {
            return found;
        }
        assert!(begun.elapsed() < PATIENCE, "waited in vain for {what}");
        thread::sleep(LOOK_AGAIN);
    }
}
