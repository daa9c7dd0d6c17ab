//! Patch tests: the client's small page, and the artist's screens.

use serde::{Deserialize, Serialize};
use uuid::Uuid;

use super::{
    artist::LinkView,
    client::{Moment, StudioCard},
    form::Filled,
};
use crate::{patch_test::Noticed, words::Words};

/// Everything that the client's page of a patch test shows. Only the server draws it. Fields of its form: `answer_id,
/// noticed, words, consent`.
#[derive(Clone, Debug, PartialEq)]
pub struct PatchTestPage {
    /// BCP 47.
    pub language: String,
    /// The keys below `patch_test.`, `patch_noticed.`, `client.emergency.`, `client.foot.`.
    pub words: Words,
    pub studio: StudioCard,
    pub first_name: String,
    /// `/MY/SECRET`.
    pub path: String,
    pub put_on: Moment,
    /// "behind the ear, left"
    pub place: String,
    pub product: String,
    /// What it is for ("brow tint").
    pub treatments: Vec<String>,
    pub looks: Vec<LookTime>,
    /// Days within which a reaction still shows itself; 0 when nobody says.
    pub days_to_watch: u32,
    /// Whether it stands at a reaction: then what to do comes first.
    pub reacts: bool,
    /// Newest first.
    pub told: Vec<ToldCard>,
    /// "Tamsel Lane Brows noted Saturday 14:35: no reaction.", oldest first.
    pub read: Vec<String>,
    pub form_id: Uuid,
    /// The version of the consent text that is shown.
    pub consent_version: String,
    pub form: Filled,
}

/// A time at which to look.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct LookTime {
    /// Elapsed hours after it was put on.
    pub hours: u32,
    pub at: Moment,
    pub over: bool,
}

/// What the client told.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct ToldCard {
    pub received: Moment,
    pub noticed: Noticed,
    /// `noticed` in words.
    pub said: String,
    /// In the client's own words.
    pub words: String,
}

/// The list of patch tests.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct PatchTests {
    /// To be read, most urgent first.
    pub waiting: Vec<PatchTestLine>,
    /// Read or withdrawn, put on last first.
    pub done: Vec<PatchTestLine>,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PatchTestLine {
    pub id: Uuid,
    pub first_name: String,
    pub put_on: Moment,
    /// "Orrin tint, slate, for brow tint".
    pub what: String,
    /// What the client said, what the artist noted, or when to look.
    pub state: String,
    /// Whether the client saw something, or was not sure, and nobody has read it since.
    pub urgent: bool,
}

/// The form of a new test. Fields: `test_id, client` or `first_name, reach`; `date, time, treatments*, product, batch,
/// place, place_words, note`.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct NewPatchTest {
    pub test_id: Uuid,
    pub form: Filled,
    /// Id and "first name · reach" of the clients in the record, by name.
    pub clients: Vec<(String, String)>,
    /// Term and name of the treatments before which there is a test.
    pub treatments: Vec<(String, String)>,
    /// Term and name.
    pub places: Vec<(String, String)>,
    pub known_products: Vec<String>,
}

/// One test. Fields of its reading: `event_id, outcome, words`; of its withdrawal: `why`.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PatchTestView {
    pub id: Uuid,
    pub client: Uuid,
    pub first_name: String,
    pub reach: String,
    pub put_on: Moment,
    pub recorded_by: String,
    pub product: String,
    pub batch: String,
    pub place: String,
    pub treatments: Vec<String>,
    pub note: String,
    pub looks: Vec<LookTime>,
    /// Newest first.
    pub told: Vec<ToldCard>,
    /// What the artist noted, newest first: sentence and words.
    pub readings: Vec<(String, String)>,
    /// What it stands at, in a sentence.
    pub stands: String,
    /// Whether a reading is waited for.
    pub waiting: bool,
    /// "Withdrawn Saturday 14:35 by Ilse.", and why; empty while it holds.
    pub withdrawn: Option<(String, String)>,
    pub link: LinkView,
    /// Term and name of what may be noted.
    pub outcomes: Vec<(String, String)>,
    /// The id that the form of a reading sends, so that a double tap notes once.
    pub event_id: Uuid,
    pub form: Filled,
}
