//! How the studio is told at once that something waits.

use serde::{Deserialize, Serialize};

use super::form::Filled;

/// Fields: `mail` (yes), `host, port, security, user, password, from, to`; `webhook` (yes), `address, secret, new_secret`
/// (yes). A password that is kept is never in it; `secret` is a fresh one that becomes the shared secret when there is none
/// yet or `new_secret` is ticked.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct NoticesScreen {
    pub form: Filled,
    /// "Last changed Thursday 14:30 by Ilse"; empty when nothing was set yet.
    pub changed: String,
    /// Term and words of how a connection is made safe.
    pub securities: Vec<(String, String)>,
    pub password_kept: bool,
    pub secret_kept: bool,
    pub mail: WayState,
    pub webhook: WayState,
}

/// One way of telling, and how it went last.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct WayState {
    pub on: bool,
    /// The last attempt failed.
    pub troubled: bool,
    /// Whole sentences.
    pub said: Vec<String>,
}
