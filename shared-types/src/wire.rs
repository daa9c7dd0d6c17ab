//! What travels as JSON between the phone and the server, beside the report itself.

use serde::{Deserialize, Serialize};
use uuid::Uuid;

use crate::{
    page::client::{Moment, SentCard},
    urgency::Level,
};

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

/// What waits for the artist: drawn with each screen, and told while one is open.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Waiting {
    pub reports: u32,
    pub wishes: u32,
    /// Of the reports that wait.
    pub most_urgent: Option<Level>,
    /// These only grow when something comes in, so that a screen that was not reached for a while sees it later.
    pub reported: u32,
    pub wished: u32,
    /// The sentence for what came in last, and where it can be looked at; both empty when nothing ever did.
    #[serde(default)]
    pub report: News,
    #[serde(default)]
    pub wish: News,
}

/// Something that came in.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct News {
    pub said: String,
    pub address: String,
    /// Of a report.
    #[serde(default)]
    pub level: Option<Level>,
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
