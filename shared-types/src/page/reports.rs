//! Reports on the artist's screens.

use serde::{Deserialize, Serialize};
use uuid::Uuid;

use super::{
    artist::{ProductLine, VisitView},
    client::{AnswerCard, Moment},
    form::Filled,
};
use crate::urgency::Level;

/// The inbox. Each list has the most urgent first, and of those as urgent the one that has waited longest.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Reports {
    /// Nobody has answered since their sender last said something.
    pub waiting: Vec<ReportLine>,
    /// Answered, and not settled yet.
    pub answered: Vec<ReportLine>,
    /// Newest first.
    pub settled: Vec<ReportLine>,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct ReportLine {
    pub id: Uuid,
    pub first_name: String,
    pub received: Moment,
    pub level: Level,
    /// Signs and words, shortened to a line.
    pub gist: String,
    /// Words for the trend, empty when it was not said.
    pub trend: String,
    /// "Waits 5 hours; overdue since 13:30"; empty when nobody waits.
    pub waits: String,
    pub overdue: bool,
    /// Nobody at the studio has looked at it yet.
    pub unseen: bool,
    pub answered: bool,
    pub settled: bool,
    pub done: Vec<String>,
    pub visit_finished: Moment,
}

/// One report with its visit beside it. Fields of the answer: `answer_id, text`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ReportView {
    pub id: Uuid,
    pub received: Moment,
    /// "5 hours after the visit".
    pub after_visit: String,
    /// The one that counts now.
    pub level: Level,
    pub waits: String,
    pub overdue: bool,
    /// "Seen Thursday 14:30 by Ilse."; empty as long as nobody has.
    pub seen: String,
    pub said: Said,
    pub told: ToldView,
    /// What its sender said since, oldest first.
    pub followed: Vec<FollowedLine>,
    /// Skin tests before the visit, one in a line.
    pub patch_tests: Vec<String>,
    /// "Kept by the studio: agreed Thursday 14:30", one for each consent.
    pub consents: Vec<String>,
    /// Other reports of the same client, newest first.
    pub others: Vec<ReportLine>,
    pub photos: Vec<PhotoLine>,
    /// Photos that were announced and have not arrived, in a sentence; empty when none is missing.
    pub photos_to_come: String,
    pub answers: Vec<AnswerCard>,
    /// Sentences to begin an answer with.
    pub beginnings: Vec<String>,
    pub outcome: OutcomePart,
    pub not_again: NotAgainPart,
    /// "Thursday 14:30 by Ilse"
    pub settled: Option<Moment>,
    pub visit: VisitView,
    /// The id that the answer form sends, so that a double tap answers once.
    pub answer_id: Uuid,
    pub form: Filled,
}

/// What was reported, in words.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Said {
    /// The answers by which the rules raised it.
    pub raised: Vec<String>,
    /// Other signs that are there.
    pub present: Vec<String>,
    /// "Began: within 6 hours", "Getting worse".
    pub course: Vec<String>,
    /// Asked and not sure.
    pub not_sure: Vec<String>,
    /// Signs of danger that nobody answered for.
    pub unanswered: Vec<String>,
    /// Asked and answered with no.
    pub absent: Vec<String>,
    /// Terms of the places that were touched, and their words.
    pub places: Vec<(String, String)>,
    pub words: String,
    pub reach: String,
}

/// What the client was told to do.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct ToldView {
    /// By the studio's rules.
    pub advice: Vec<String>,
    /// By the phone, where it told something else.
    pub by_phone: Vec<String>,
    /// Which rules, and of which content.
    pub basis: String,
}

/// "After 24 hours: worse (Thursday 14:30)", and what was told then.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct FollowedLine {
    pub text: String,
    pub worse: bool,
    pub level: Level,
}

/// A photo, with its date.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PhotoLine {
    pub address: String,
    /// "Sent Thursday 14:30"
    pub caption: String,
}

/// What became of it. Fields: `advised, done, ended, serious*, aware_on, medically_confirmed (yes, no), diagnosis,
/// re_exposure, tests, other_explanations, beside` (the id of the note that the form was drawn beside; empty for none).
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct OutcomePart {
    /// Every note, the latest first.
    pub noted: Vec<OutcomeLine>,
    pub form: Filled,
    /// Term and words.
    pub endings: Vec<(String, String)>,
    pub serious: Vec<(String, String)>,
    pub re_exposure: Vec<(String, String)>,
    /// Whose list of boxes it is, and who has to tell whom.
    pub law: Vec<String>,
    /// Until when that is, once a box is ticked; empty before.
    pub due: String,
}

/// One note of what became of a report.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct OutcomeLine {
    /// "Ilse, Thursday 14:30"
    pub by: String,
    pub facts: Vec<(String, String)>,
}

/// Products not to be used again for this client. Fields: `product` (the place of the visit's product), `whole` (yes),
/// `words`.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct NotAgainPart {
    /// Those of the visit.
    pub products: Vec<ProductLine>,
    /// What stands, the latest first.
    pub lines: Vec<NotAgainLine>,
    /// What stood and was lifted, one in a line.
    pub lifted: Vec<String>,
    pub form: Filled,
}

/// One product that is not to be used again.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct NotAgainLine {
    pub id: Uuid,
    /// "Velm soft wax, batch VW 2261"
    pub what: String,
    /// "Since Thursday 14:30, by Ilse"
    pub since: String,
    pub words: String,
    /// The report after which it was noted.
    pub report: Uuid,
}

/// When the studio replies, and with which sentences it begins. Fields: `hours_LEVEL` for each level, `beginnings` (one in
/// each line).
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct DeskScreen {
    pub form: Filled,
    /// "Last changed Thursday 14:30 by Ilse"; empty when nothing was set yet.
    pub changed: String,
    /// Level, and what holds when nothing is given.
    pub levels: Vec<(Level, String)>,
}
