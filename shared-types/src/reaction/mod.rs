//! A client's report that something is not right, as it travels from the phone to the studio.

mod consents;
mod follow_up;
mod place;

use chrono::TimeDelta;
use serde::{Deserialize, Serialize};

pub use crate::visit::UnknownTerm;
use crate::{
    page::form::Filled,
    photos::PHOTOS_MAX,
    urgency::{Answer, Answers, Field, Level, Rules, Verdict, whole_minutes},
    visit::Treatment,
};
pub use consents::{Consents, Purpose};
pub use follow_up::{FollowUp, FollowUps, How};
pub use place::Place;

/// Longest free text, in characters: about a page, so that nobody in worry is cut short.
pub const WORDS_MAX: usize = 4000;
/// Longest "how to reach me", in characters.
pub const REACH_MAX: usize = 200;

/// What the client sends. The id travels beside it (in the address), made by the sender.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Report {
    /// What was answered on the way to the advice.
    pub answers: Answers,
    /// Where it is, in the order of [`Place::ALL`], each once.
    pub places: Vec<Place>,
    /// The client's own words.
    pub words: String,
    /// Telephone or e-mail; empty when the client does not wish to be contacted.
    pub reach: String,
    pub consents: Consents,
    /// What the phone told the client to do; nothing from a plain form, where the server tells it.
    #[serde(default)]
    pub told: Option<Told>,
    /// How many photos are to follow, each by a request of its own.
    #[serde(default)]
    pub photos: u8,
}

/// A verdict that somebody was told, kept by ids.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Told {
    pub level: Level,
    pub rules: Vec<String>,
    pub advice: Vec<String>,
    /// Of the content that the rules came from.
    pub content_version: String,
}

impl Told {
    pub fn new(verdict: &Verdict<'_>, content_version: &str) -> Self {
        let owned = |ids: &[&str]| ids.iter().map(|id| (*id).to_owned()).collect();
        Self {
            level: verdict.level,
            rules: owned(&verdict.rules),
            advice: owned(&verdict.advice),
            content_version: content_version.to_owned(),
        }
    }
}

/// One thing that keeps a form from being taken: the field's name and the key of the sentence that says what to do.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Fault {
    pub field: &'static str,
    pub key: &'static str,
}

impl Report {
    /// The fields of its form beside the questions, which bear the names of their ids.
    pub const FIELDS: &'static [&'static str] = &[
        "places",
        "words",
        "reach",
        Purpose::Report.field(),
        Purpose::Photos.field(),
        Purpose::Supplier.field(),
    ];

    /// The report that a form holds, with the answers that led to the advice.
    ///
    /// # Errors
    /// A term that is none of ours: nobody can have chosen it.
    pub fn from_form(answers: Answers, form: &Filled) -> Result<Self, UnknownTerm> {
        let ticked = |purpose: Purpose| {
            let version = form.value(purpose.field());
            (!version.is_empty()).then(|| version.to_owned())
        };
        let report = Self {
            answers,
            places: form
                .all("places")
                .map(str::parse)
                .collect::<Result<_, _>>()?,
            words: form.value("words").to_owned(),
            reach: form.value("reach").to_owned(),
            consents: Consents {
                report: ticked(Purpose::Report),
                photos: ticked(Purpose::Photos),
                supplier: ticked(Purpose::Supplier),
            },
            told: None,
            photos: 0,
        };
        Ok(report.tidied())
    }

    /// The report as the record keeps it: places in order and once, texts without surrounding blanks.
    pub fn tidied(mut self) -> Self {
        let given = self.places;
        let all = Place::ALL.iter().copied();
        self.places = all.filter(|place| given.contains(place)).collect();
        self.words = self.words.trim().to_owned();
        self.reach = self.reach.trim().to_owned();
        self
    }

    /// With what the studio knows itself, whatever was sent: what was done, and that no more time can have passed since the
    /// visit than has. An answer given without network keeps its own time.
    pub fn beside(mut self, treatments: &[Treatment], since_visit: TimeDelta) -> Self {
        self.answers.treatments = treatments.to_vec();
        let most = whole_minutes(since_visit);
        match self.answers.get(Field::HoursSinceVisit) {
            Answer::At(minutes) if minutes <= most => {}
            _ => self.answers.set(Field::HoursSinceVisit, Answer::At(most)),
        }
        // What has begun did so before now. Between two times it may, and stays as it was answered.
        if let (Answer::At(visit), Some(from)) = (
            self.answers.get(Field::HoursSinceVisit),
            self.answers.begun_from(),
        ) && from > visit
        {
            self.answers.set(Field::OnsetHours, Answer::At(visit));
        }
        self
    }

    /// What keeps this report from being taken; empty when nothing does. A report needs an answer or words, and the
    /// consent to keep what it says about health.
    pub fn faults(&self) -> Vec<Fault> {
        let mut faults = Vec::new();
        let mut blame = |field, key| faults.push(Fault { field, key });
        if self.words.trim().is_empty() && !self.says_something() {
            blame("words", "fault.report_empty");
        }
        if self.words.chars().count() > WORDS_MAX {
            blame("words", "fault.words_long");
        }
        if self.reach.chars().count() > REACH_MAX {
            blame("reach", "fault.reach_long");
        }
        let missing = |purpose| self.consents.of(purpose).is_none_or(str::is_empty);
        if missing(Purpose::Report) {
            blame(Purpose::Report.field(), "fault.consent");
        }
        if self.photos > 0 && missing(Purpose::Photos) {
            blame(Purpose::Photos.field(), "fault.consent_photos");
        }
        if u32::from(self.photos) > PHOTOS_MAX {
            blame("photos", "fault.photos_many");
        }
        faults
    }

    /// Any question was answered; the time since the visit is known without asking.
    fn says_something(&self) -> bool {
        self.answers
            .answered()
            .any(|field| field != Field::HoursSinceVisit)
    }

    /// How soon to act, by its answers.
    pub fn judge<'a>(&self, rules: &'a Rules) -> Verdict<'a> {
        crate::urgency::judge(rules, &self.answers)
    }
}
