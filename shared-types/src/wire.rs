//! What travels as JSON between the phone and the server, beside the report itself.

use serde::{Deserialize, Serialize};
use uuid::Uuid;

use crate::page::client::{Moment, SentCard};

/// The server's word that a report or a wish is on disk. The same id again gets the same receipt.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Receipt {
    pub id: Uuid,
    pub received: Moment,
}

/// Where the client's reports and wishes stand, asked for again while the page is open.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Standing {
    pub reports: Vec<SentCard>,
    #[serde(default)]
    pub wishes: Vec<SentCard>,
}

/// Whether the client's page has been opened, asked for by the artist's screen while the QR is shown.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct LinkUse {
    pub opened: Option<Moment>,
    /// "Read in Español."; empty until it was opened.
    #[serde(default)]
    pub read_in: String,
}

/// A refusal in JSON (RFC 9457, `application/problem+json`).
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Problem {
    /// `about:blank`, or a name of ours below `/problems/`.
    #[serde(rename = "type")]
    pub kind: String,
    pub title: String,
    pub status: u16,
    /// One sentence that says what to do.
    pub detail: String,
}
