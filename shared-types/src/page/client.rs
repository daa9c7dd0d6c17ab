//! The client's page.

use std::{fmt, str::FromStr};

use chrono::{DateTime, Utc, serde::ts_seconds};
use serde::{Deserialize, Serialize};
use uuid::Uuid;

use super::{form::Filled, picture::Picture};
use crate::{
    visit::{Area, UnknownTerm, terms},
    words::Words,
};

/// An instant and how it is written at the studio, in the page's language. The phone has no time-zone tables.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Moment {
    #[serde(with = "ts_seconds")]
    pub at: DateTime<Utc>,
    /// "Thursday 14:30"; with the date when it is a week or more from what it refers to.
    pub text: String,
}

/// The client's page: what the phone needs to keep it alive, and what the server alone draws of it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ClientPage {
    /// The build that rendered this; another build leaves it as plain HTML.
    pub build: String,
    #[serde(with = "ts_seconds")]
    pub now: DateTime<Utc>,
    /// `now`, as it is written at the studio: shown when the page is read without network.
    pub as_of: String,
    /// The keys below `client.`, `sign.`, `since.`, `trend.`, `fault.`, `plural.` that the phone says itself.
    pub words: Words,
    pub studio_name: String,
    /// The number for the emergency services, as it is written.
    pub emergency: String,
    /// Where, as a sentence names it ("your brows and your upper lip").
    pub treated: String,
    #[serde(with = "ts_seconds")]
    pub finished_at: DateTime<Utc>,
    /// `/MY/SECRET`, below which the page's own addresses lie.
    pub path: String,
    /// By their end, the soonest first.
    pub cautions: Vec<CautionsUntil>,
    /// When to come back, and how the hair of each area returns.
    pub due: Option<Due>,
    pub figures: Vec<Figure>,
    /// Newest first.
    pub reports: Vec<SentCard>,
    /// Newest first.
    pub wishes: Vec<SentCard>,
    /// The day at the studio, from which on a wish may ask; and the first good day to come back, with which its form
    /// begins, empty when it has come already. YYYY-MM-DD.
    pub first_day: String,
    pub good_day: String,
    /// The id that a plain form sends; the phone makes its own.
    pub form_id: Uuid,
    /// The wish's form that came back to be mended.
    pub form: Filled,
    /// Stays behind when the state travels.
    #[serde(skip)]
    pub still: Still,
}

/// The parts of the page that never move, as HTML. The server alone draws them and they do not travel in the state: the
/// browser has them in the document, and the phone downloads neither their code nor their words.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Still {
    /// BCP 47.
    pub language: String,
    /// Of the document; plain text.
    pub title: String,
    pub head: String,
    /// How it settles.
    pub after: String,
    /// Below each of the figures, in their order.
    pub below_figures: Vec<String>,
    /// What else there is to say of the weeks between.
    pub weeks: String,
    /// The zones of the brows that were marked.
    pub zones: String,
    pub dates: String,
    /// The card, and the way to what to do.
    pub emergency: String,
    pub foot: String,
}

/// Whose page it is and who to turn to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StudioCard {
    pub name: String,
    pub artist: String,
    /// Empty when the studio gave none.
    pub phone: String,
    pub email: String,
    pub emergency: EmergencyNumber,
}

/// The number for the emergency services where the studio is.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct EmergencyNumber {
    /// As it is written: "112", or "112 or your local emergency number".
    pub text: String,
    /// As it is dialled.
    pub dial: String,
    /// How long an eye is rinsed before, in whole minutes.
    pub rinse_minutes: u32,
}

/// When to come back, as it is said before that time is over and afterwards.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Due {
    pub to_come: String,
    pub why: String,
    pub over: String,
    /// Days from the visit.
    pub from_day: u16,
    pub until_day: u16,
}

/// The cautions that end at one instant.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct CautionsUntil {
    pub until: Moment,
    /// The page's first sentence while these are the next to end. `{left}` is the time until then.
    pub lead: String,
    /// The items of their list, each of which opens to why it is asked for and who says so: HTML as the server drew it. It
    /// travels, because these move to another list once they are over.
    pub html: String,
}

/// One caution, in words, with its exact end.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct CautionCard {
    /// The term of the [`crate::visit::CautionKind`].
    pub id: String,
    /// "No sauna, steam room or hot bath".
    pub what: String,
    pub why: String,
    pub until: Moment,
    /// Elapsed hours from the end of the visit.
    pub hours: u32,
    /// How sure this is and who says so, in one sentence.
    pub basis: String,
}

/// What is told about one side of how it settles, in whole sentences.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct AfterList {
    pub title: String,
    pub lines: Vec<String>,
}

/// The weeks between: how hair returns, and when to come back.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Weeks {
    /// Where hair was taken out, coloured or set; one for each area that has anything to show.
    pub areas: Vec<AreaWeeks>,
    pub come_back: Option<ComeBack>,
    /// What the forecast rests on for this person and what makes it unsure, one sentence each.
    #[serde(default)]
    pub about: Vec<String>,
    /// How sure the forecast is, in one sentence.
    pub confidence: String,
}

/// What is drawn of one area, day by day and in a strip of weeks.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Figure {
    pub area: Area,
    /// "Brows"
    pub name: String,
    pub shows: Shows,
    pub weeks: Vec<WeekShare>,
    pub picture: Option<Picture>,
}

/// How the hair of one area returns, or keeps what was done to it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct AreaWeeks {
    pub area: Area,
    /// "Brows"
    pub name: String,
    pub shows: Shows,
    pub weeks: Vec<WeekShare>,
    /// Brows and upper lashes are drawn hair by hair.
    pub picture: Option<Picture>,
    /// What to look for on the way, in order of time.
    pub milestones: Vec<Milestone>,
}

impl AreaWeeks {
    pub fn figure(&self) -> Figure {
        Figure {
            area: self.area,
            name: self.name.clone(),
            shows: self.shows,
            weeks: self.weeks.clone(),
            picture: self.picture.clone(),
        }
    }
}

terms! {
    /// What the shares of the weeks are about.
    Shows {
        /// Hair that was taken out and returns.
        Returning = "returning",
        /// Hair that was coloured and keeps its colour.
        Colour = "colour",
        /// Hair that was set (lift, lamination) and keeps its set.
        Set = "set",
    }
}

/// Something to be seen from a day on.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Milestone {
    /// "Monday 28 December".
    pub from: String,
    pub what: String,
}

/// The state at the end of one week, in thousandths of the hairs that were there before the visit. Whole numbers,
/// because reading and writing fractions would be a good part of what the phone downloads.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct WeekShare {
    pub week: u8,
    pub visible: u16,
    /// Long enough to be held and removed.
    pub graspable: u16,
    /// Of the hairs that were coloured or set, those that keep it, with what is left of the colour.
    #[serde(default)]
    pub kept: u16,
}

/// A suggested time for the next visit.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct ComeBack {
    /// "Monday 28 December".
    pub from: String,
    pub until: String,
    /// Days from the visit, for the strip.
    pub from_day: u16,
    pub until_day: u16,
    /// One sentence.
    pub why: String,
    /// What can wait until then, what an earlier visit would do: one sentence each.
    #[serde(default)]
    pub more: Vec<String>,
    /// "Brow wax", and in words from when to when it is due by itself, and why. Pairs of texts, because the phone reads
    /// such pairs already; the dates are in the visit's plan.
    #[serde(default)]
    pub windows: Vec<(String, String)>,
}

impl ComeBack {
    /// The first and the last day from the visit.
    pub const fn days(&self) -> [u16; 2] {
        [self.from_day, self.until_day]
    }

    /// A sentence with this time in it: `key`, or `key_day` when all of it is one day. Placeholders `{from}`, `{until}`.
    pub fn said(&self, words: &Words, key: &str) -> String {
        let one_day = format!("{key}_day");
        let key = if self.from_day == self.until_day {
            &one_day
        } else {
            key
        };
        words.fill(key, &[("from", &self.from), ("until", &self.until)])
    }
}

/// A report or a wish that the studio has, as its sender sees it. One type for both: the phone downloads the reader
/// of each.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct SentCard {
    pub id: Uuid,
    pub received: Moment,
    /// What was noticed, asked for and said, in words, shortened to a line.
    pub gist: String,
    /// Oldest first. An answer that agreed to a time begins with it.
    pub answers: Vec<AnswerCard>,
    /// What happened to it beside, one sentence each: seen, how it went on, when it is asked again.
    pub steps: Vec<String>,
    /// What to do now by the latest word about how it goes, one sentence each; empty until there was one.
    pub now: Vec<String>,
    /// The question about how it goes that is to be answered now, in hours from the report; 0 for none.
    pub ask: u32,
    /// The time that holds, "Thursday 3 December, 14:30", while it is to come; else empty.
    pub agreed: String,
    pub settled: bool,
}

/// The studio's answer.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct AnswerCard {
    pub by: String,
    pub at: Moment,
    pub text: String,
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A time of one day is told as one day, not as a range from it to itself.
    #[test]
    fn a_time_of_one_day_is_one_day() {
        let mut words = Words::none();
        for (key, text) in [("back", "{from} to {until}"), ("back_day", "on {from}")] {
            assert!(words.insert(key.to_owned(), text.to_owned()));
        }
        let mut back = ComeBack {
            from: "Monday".to_owned(),
            until: "Friday".to_owned(),
            from_day: 30,
            until_day: 34,
            why: String::new(),
            more: Vec::new(),
            windows: Vec::new(),
        };
        assert_eq!(back.said(&words, "back"), "Monday to Friday");
        back.until_day = 30;
        assert_eq!(back.said(&words, "back"), "on Monday");
    }
}
