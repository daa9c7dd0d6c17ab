//! When to come back, as the command line answers it.

use chrono::NaiveDate;
use serde::Serialize;
use shared_types::care_plan::{
    DateSpan, NextVisit, OwnInterval, Practice, PracticeFault, Usual, Window,
};

use super::{CliError, Content};

#[derive(Serialize)]
pub struct NextVisitAnswer {
    windows: Vec<WindowAnswer>,
    suggested: Option<DateSpan>,
    /// The studio is closed on all of the suggested days.
    no_open_day: bool,
    waits: Vec<WaitAnswer>,
    alternative: Option<AlternativeAnswer>,
}

#[derive(Serialize)]
struct WindowAnswer {
    treatment: &'static str,
    earliest: NaiveDate,
    best: NaiveDate,
    latest: NaiveDate,
    reason: &'static str,
    /// What the model or the trade says, where the studio's own days are others.
    #[serde(skip_serializing_if = "Option::is_none")]
    usual: Option<UsualAnswer>,
}

#[derive(Serialize)]
struct UsualAnswer {
    earliest: NaiveDate,
    best: NaiveDate,
    latest: NaiveDate,
    reason: &'static str,
}

#[derive(Serialize)]
struct WaitAnswer {
    treatment: &'static str,
    timing: &'static str,
}

/// Shares (0 to 1) of the hairs that were there before.
#[derive(Serialize)]
struct AlternativeAnswer {
    treatment: &'static str,
    tidy_day: u16,
    tidy_share: f64,
    full_share: f64,
    full_from: NaiveDate,
}

pub fn answer(next: &NextVisit) -> NextVisitAnswer {
    NextVisitAnswer {
        windows: next.windows.iter().map(window).collect(),
        suggested: next.suggested,
        no_open_day: next.no_open_day,
        waits: next
            .waits
            .iter()
            .map(|wait| WaitAnswer {
                treatment: wait.treatment.term(),
                timing: wait.timing.term(),
            })
            .collect(),
        alternative: next.alternative.as_ref().map(|one| AlternativeAnswer {
            treatment: one.treatment.term(),
            tidy_day: one.tidy_day,
            tidy_share: f64::from(one.tidy_share) / 1000.0,
            full_share: f64::from(one.full_share) / 1000.0,
            full_from: one.full_from,
        }),
    }
}

fn window(window: &Window) -> WindowAnswer {
    WindowAnswer {
        treatment: window.treatment.term(),
        earliest: window.earliest,
        best: window.best,
        latest: window.latest,
        reason: window.reason.term(),
        usual: window.usual.as_ref().map(
            |Usual {
                 earliest,
                 best,
                 latest,
                 reason,
             }| UsualAnswer {
                earliest: *earliest,
                best: *best,
                latest: *latest,
                reason: reason.term(),
            },
        ),
    }
}

/// The first thing in the studio's practice that cannot be taken, by its field.
pub fn check_practice(practice: &Practice, content: &Content) -> Result<(), CliError> {
    let of_bound = |treatment, bound, given: u16, allowed: String| {
        let field = format!("practice.intervals.{treatment}.{bound}_days");
        CliError::value(field, given, allowed)
    };
    let Some(fault) = practice.faults(&content.catalogue).into_iter().next() else {
        return Ok(());
    };
    Err(match fault {
        PracticeFault::NotOffered { treatment, allowed } => {
            CliError::value("practice.intervals", treatment, format!("one of {allowed}"))
        }
        PracticeFault::Days {
            treatment,
            bound,
            given,
        } => of_bound(
            treatment,
            bound,
            given,
            format!("1 to {} days", OwnInterval::LONGEST),
        ),
        PracticeFault::Order {
            treatment,
            bound,
            given,
        } => of_bound(
            treatment,
            bound,
            given,
            "days that rise from earliest over best to latest".to_owned(),
        ),
        PracticeFault::Sooner {
            treatment,
            bound,
            given,
            least,
        } => of_bound(
            treatment,
            bound,
            given,
            format!(
                "{least} days or more, as the trade waits, or `knowingly_sooner`: true beside it"
            ),
        ),
        PracticeFault::NeverOpen => CliError::value(
            "practice.closed",
            "every day",
            "at most six days of the week",
        ),
        PracticeFault::PatchTestDays { given } => CliError::value(
            "practice.patch_test_days",
            given,
            format!("1 to {} days", Practice::LONGEST_TEST),
        ),
    })
}
