//! One time for a visit that repeats everything that was done.

use std::{fmt, str::FromStr};

use chrono::{Days, NaiveDate};
use serde::{Deserialize, Serialize};

use super::{Practice, next_visit::Window};
use crate::visit::{Treatment, UnknownTerm, terms};

/// Both ends included; `from <= until`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct DateSpan {
    pub from: NaiveDate,
    pub until: NaiveDate,
}

/// A treatment's window, and the part of it that suits the studio best.
#[derive(Clone, Debug)]
pub(super) struct Due {
    pub window: Window,
    /// Within the window.
    pub target: DateSpan,
    /// The studio's aim is about this treatment.
    pub leads: bool,
}

/// When to come for everything at once.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Suggestion {
    pub span: DateSpan,
    /// The studio is closed on all of these days, and on those after them that would still be in time.
    pub no_open_day: bool,
    pub waits: Vec<Wait>,
}

/// A treatment that did not decide the time.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Wait {
    pub treatment: Treatment,
    pub timing: Timing,
}

terms! {
    /// How a treatment stands at the suggested time; its sentence is the word `wait.<timing>`.
    Timing {
        /// It could be done sooner, and is still in time then.
        CanWait = "can_wait",
        /// It is at its best only later.
        Early = "early",
        /// Its latest day is over by then.
        Over = "over",
    }
}

/// The days that suit every treatment that the studio's aim is about (or simply every treatment, when it is about none).
/// Where there are none, the days of the one that is ready last, cut at the first `latest` of all, though never before
/// that one's own day. Never before any treatment's `earliest`, and never on a closed day while there is an open one in
/// time. `None` without windows.
pub(super) fn suggest(dues: &[Due], practice: &Practice) -> Option<Suggestion> {
    let any_leads = dues.iter().any(|due| due.leads);
    let leading = || dues.iter().filter(|due| due.leads || !any_leads);
    let slowest = leading().max_by_key(|due| due.target.from)?;
    let floor = dues.iter().map(|due| due.window.earliest).max()?;
    let first_latest = dues.iter().map(|due| due.window.latest).min()?;
    let from = slowest.target.from.max(floor);
    let shared_end = leading().map(|due| due.target.until).min()?;
    let end = if shared_end >= from {
        shared_end
    } else {
        slowest.target.until
    };
    let wanted = DateSpan {
        from,
        until: end.min(first_latest).max(from),
    };
    let still_in_time = dues.iter().map(|due| due.window.latest);
    let limit = still_in_time
        .filter(|latest| *latest >= wanted.until)
        .min()
        .unwrap_or(wanted.until);
    let open = on_open_days(wanted, limit, practice);
    let span = open.unwrap_or(wanted);
    let waits = dues
        .iter()
        .filter(|due| !due.leads && due.target.from != from)
        .filter_map(|due| {
            Some(Wait {
                treatment: due.window.treatment,
                timing: timing(&due.window, span)?,
            })
        });
    Some(Suggestion {
        span,
        no_open_day: open.is_none(),
        waits: waits.collect(),
    })
}

/// The span from its first to its last open day; where it has none, the next open day that is not after `limit`.
fn on_open_days(span: DateSpan, limit: NaiveDate, practice: &Practice) -> Option<DateSpan> {
    let is_open = |day: &NaiveDate| practice.is_open(*day);
    let days_from = |day: NaiveDate| day.iter_days();
    match days_from(span.from)
        .take_while(|day| *day <= span.until)
        .find(is_open)
    {
        Some(from) => {
            let back = (0..).map_while(|n| span.until.checked_sub_days(Days::new(n)));
            let until = back.take_while(|day| *day >= from).find(is_open)?;
            Some(DateSpan { from, until })
        }
        None => {
            let day = days_from(span.until)
                .take_while(|day| *day <= limit)
                .find(is_open)?;
            Some(DateSpan {
                from: day,
                until: day,
            })
        }
    }
}

/// `None` when the suggested days are this treatment's own.
fn timing(window: &Window, span: DateSpan) -> Option<Timing> {
    if window.latest < span.from {
        Some(Timing::Over)
    } else if window.best < span.from {
        Some(Timing::CanWait)
    } else if window.best > span.until {
        Some(Timing::Early)
    } else {
        None
    }
}

#[cfg(test)]
mod tests;
