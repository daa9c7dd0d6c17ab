//! The case of a report, for whoever has to know of it: what is in the record and nothing more. Facts only; what caused it
//! is not weighed.

mod form;
mod location;
mod sentences;
mod steps;
mod unnamed;

pub use form::{Beside, VERSION, form};
pub use sentences::Sentences;
pub use steps::{Step, What};
pub use unnamed::{Names, code_of};

use std::{fmt, str::FromStr};

use chrono::{DateTime, TimeDelta, Utc};
use rusqlite::Connection;
use shared_types::{
    outcome::Outcome,
    reaction::Purpose,
    urgency::{Answer, Field},
    visit::Visit,
};
use uuid::Uuid;

use crate::record::{
    RecordError,
    clients::Client,
    consultations, not_again, outcomes,
    outcomes::Noted,
    patch_tests,
    photos::{self, Photo},
    reports::{
        self, Held,
        consents::{self, Given},
        events::{self, Done},
    },
    visits,
};

/// Who reads it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Reader {
    /// The client's doctor or insurer: with name and photos.
    #[default]
    Doctor,
    /// Whoever supplied the product: a code for the name, and no words of the client's own.
    Supplier,
}

impl Reader {
    pub const fn term(self) -> &'static str {
        match self {
            Self::Doctor => "doctor",
            Self::Supplier => "supplier",
        }
    }
}

impl fmt::Display for Reader {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.term())
    }
}

impl FromStr for Reader {
    type Err = ();
    fn from_str(given: &str) -> Result<Self, ()> {
        [Self::Doctor, Self::Supplier]
            .into_iter()
            .find(|one| one.term() == given)
            .ok_or(())
    }
}

/// Everything that the record holds of a case.
pub struct Case {
    pub held: Held,
    pub visit: Visit,
    pub client: Client,
    pub consents: Vec<Given>,
    /// What became of it, the latest first.
    pub noted: Vec<Noted>,
    /// First looked at.
    pub seen: Option<Done>,
    /// Settled (`true`) and opened again, oldest first.
    pub settled: Vec<(bool, Done)>,
    /// What was noted after this report as not to be used again, the earliest first, and whether it was lifted since.
    pub not_again: Vec<not_again::Held>,
    /// Put on before the visit.
    pub patch_tests: Vec<patch_tests::Held>,
    /// Those of the report, which the client agreed that the studio keeps.
    pub photos: Vec<Photo>,
    /// What stood against the treatment, and what was decided.
    pub before: Option<consultations::Held>,
}

impl Case {
    /// `None` when there is no such report.
    pub fn read(record: &Connection, report: Uuid) -> Result<Option<Self>, RecordError> {
        let Some(held) = reports::by_id(record, report)? else {
            return Ok(None);
        };
        let Some((visit, client)) = visits::by_id(record, held.visit)? else {
            return Ok(None);
        };
        let mut not_again = not_again::ever(record, client.id)?;
        not_again.retain(|one| one.report == report);
        Ok(Some(Self {
            consents: consents::of_report(record, report)?,
            seen: events::seen(record, report)?,
            settled: events::settled(record, report)?,
            noted: outcomes::of_report(record, report)?,
            before: consultations::by_id(record, visit.id)?,
            photos: photos::of_report(record, report)?,
            not_again,
            patch_tests: patch_tests::before(record, client.id, visit.finished_at)?,
            held,
            visit,
            client,
        }))
    }

    /// Whether the client agreed that it is passed on.
    pub fn may_be_passed_on(&self) -> bool {
        self.consents
            .iter()
            .any(|one| one.purpose == Purpose::Supplier)
    }

    /// The note that counts.
    pub fn outcome(&self) -> Option<&Outcome> {
        self.noted.first().map(|one| &one.outcome)
    }

    /// From the end of the visit to the first sign, as it was answered: at the latest, and whether it may have been earlier.
    pub fn onset_after(&self) -> Option<(TimeDelta, bool)> {
        let answers = &self.held.report.answers;
        let (Answer::At(latest), from) = (answers.get(Field::OnsetHours), answers.begun_from()?)
        else {
            return None;
        };
        // What had begun did so before it was told.
        let latest = match answers.get(Field::HoursSinceVisit) {
            Answer::At(told) => latest.min(told),
            Answer::Open | Answer::NotSure => latest,
        };
        Some((TimeDelta::minutes(latest.into()), from < latest))
    }

    /// When the first sign came, at the latest.
    pub fn onset(&self) -> Option<DateTime<Utc>> {
        Some(self.visit.finished_at + self.onset_after()?.0)
    }
}
