//! What happened in a case, in order, and who did it.

use chrono::{DateTime, Utc};
use shared_types::{consultation::NotAgain, urgency::Level};

use super::Case;
use crate::record::reports::follow_ups::Followed;

/// One thing that happened.
pub struct Step<'a> {
    pub at: DateTime<Utc>,
    pub what: What<'a>,
    /// The artist's name; `None` where it was the client, or nobody's deed.
    pub by: Option<&'a str>,
}

/// What it was. The words are `case.happened.<term>`.
#[derive(Clone, Copy)]
pub enum What<'a> {
    Visit,
    Onset,
    /// Told so by the studio's rules, and first by the phone where that was something else.
    Report(Level, Option<Level>),
    Seen,
    Answered,
    Followed(&'a Followed),
    Noted,
    NotAgain(&'a NotAgain),
    Lifted(&'a NotAgain),
    Settled,
    Reopened,
}

impl What<'_> {
    pub const fn term(&self) -> &'static str {
        match self {
            Self::Visit => "visit",
            Self::Onset => "onset",
            Self::Report(_, None) => "report",
            Self::Report(_, Some(_)) => "report_two",
            Self::Seen => "seen",
            Self::Answered => "answered",
            Self::Followed(_) => "followed",
            Self::Noted => "noted",
            Self::NotAgain(_) => "not_again",
            Self::Lifted(_) => "lifted",
            Self::Settled => "settled",
            Self::Reopened => "reopened",
        }
    }
}

impl Case {
    /// Everything that happened, the earliest first.
    pub fn steps(&self) -> Vec<Step<'_>> {
        let by_nobody = |at, what| Step { at, what, by: None };
        let held = &self.held;
        let judged = held.judged.level;
        let phone = held.report.told.as_ref().map(|told| told.level);
        let phone = phone.filter(|level| *level != judged);
        let mut all = vec![by_nobody(self.visit.finished_at, What::Visit)];
        all.extend(self.onset().map(|at| by_nobody(at, What::Onset)));
        all.push(by_nobody(held.received_at, What::Report(judged, phone)));
        all.extend(
            held.followed
                .iter()
                .map(|one| by_nobody(one.answered_at, What::Followed(one))),
        );
        let mut done = |at, what, by| {
            all.push(Step {
                at,
                what,
                by: Some(by),
            })
        };
        if let Some(seen) = &self.seen {
            done(seen.at, What::Seen, seen.by.as_str());
        }
        for one in &held.answers {
            done(one.at, What::Answered, &one.by);
        }
        for one in self.noted.iter().rev() {
            done(one.at, What::Noted, &one.by);
        }
        for one in &self.not_again {
            done(one.at, What::NotAgain(&one.what), &one.by);
            if let Some(lifted) = &one.lifted {
                done(lifted.at, What::Lifted(&one.what), &lifted.by);
            }
        }
        for (settled, one) in &self.settled {
            let what = if *settled {
                What::Settled
            } else {
                What::Reopened
            };
            done(one.at, what, &one.by);
        }
        all.sort_by_key(|step| step.at);
        all
    }
}
