//! How it is going, asked again after a report.

use std::{fmt, str::FromStr};

use chrono::{DateTime, TimeDelta, Utc};
use serde::{Deserialize, Serialize};

use super::Report;
use crate::{
    urgency::{Answer, Field, whole_minutes},
    visit::{UnknownTerm, terms},
};

terms! {
    /// The answer, with one tap; the same words as the question of [`Field::Trend`].
    How {
        Better = "better",
        Same = "same",
        Worse = "worse",
    }
}

/// When it is asked again, in whole hours from the report, in order. Data of the content.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct FollowUps(pub Vec<u32>);

/// One answer to it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FollowUp {
    pub how: How,
}

impl FollowUps {
    /// What is asked now, in hours from the report: the latest whose time has come, until the next one's. `None` before the
    /// first, and once `last` is over, after which nobody is asked any more.
    pub fn due(
        &self,
        received: DateTime<Utc>,
        now: DateTime<Utc>,
        last: DateTime<Utc>,
    ) -> Option<u32> {
        let come = |hours: &&u32| now - received >= TimeDelta::hours(i64::from(**hours));
        let due = self.0.iter().rev().find(come)?;
        (now <= last).then_some(*due)
    }

    /// When it is asked next.
    pub fn next(&self, received: DateTime<Utc>, now: DateTime<Utc>) -> Option<DateTime<Utc>> {
        let times = self
            .0
            .iter()
            .map(|hours| received + TimeDelta::hours(i64::from(*hours)));
        times.into_iter().find(|at| *at > now)
    }
}

impl FollowUp {
    /// The report's answers with how it goes now, so much later: what runs through the same rules.
    pub fn upon(&self, report: &Report, since_report: TimeDelta) -> Report {
        let mut later = report.clone();
        let place = How::ALL
            .iter()
            .position(|one| *one == self.how)
            .unwrap_or_default();
        let place = u32::try_from(place).unwrap_or_default();
        later.answers.set(Field::Trend, Answer::At(place));
        if let Answer::At(minutes) = report.answers.get(Field::HoursSinceVisit) {
            let since = whole_minutes(since_report);
            later.answers.set(
                Field::HoursSinceVisit,
                Answer::At(minutes.saturating_add(since)),
            );
        }
        later
    }
}
