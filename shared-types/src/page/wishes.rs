//! Wishes for a time on the artist's screens.

use serde::{Deserialize, Serialize};
use uuid::Uuid;

use super::{
    artist::VisitView,
    client::{AnswerCard, Moment},
    form::Filled,
};

/// The list of wishes: newest first.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Wishes {
    pub waiting: Vec<WishLine>,
    pub settled: Vec<WishLine>,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct WishLine {
    pub id: Uuid,
    pub first_name: String,
    pub received: Moment,
    /// The times and the words, shortened to a line.
    pub gist: String,
    pub agreed: Option<Moment>,
    pub answered: bool,
    pub settled: bool,
    pub done: Vec<String>,
    pub visit_finished: Moment,
}

/// One wish with its visit beside it. Fields of the answer: `answer_id`, and either `take` (1 to 3: which of the times)
/// with `time_1 … time_3` (HH:MM), or `text` with, if they agreed otherwise, `date` and `time`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct WishView {
    pub id: Uuid,
    pub received: Moment,
    pub times: Vec<WishTime>,
    pub words: String,
    pub reach: String,
    pub answers: Vec<AnswerCard>,
    /// The time that holds.
    pub agreed: Option<Moment>,
    pub settled: Option<Moment>,
    pub visit: VisitView,
    /// The id that the answer forms send, so that a double tap answers once.
    pub answer_id: Uuid,
    pub form: Filled,
}

/// One of the times of a wish.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct WishTime {
    /// "Thursday 3 December, 14:30".
    pub text: String,
    /// HH:MM; empty when any time of that day would do.
    pub time: String,
    /// Whether it has passed, so that it cannot be taken any more.
    pub over: bool,
}
