//! The honest alternative: what a visit at the usual time would catch, and from when one would catch more.

use chrono::{Days, NaiveDate};
use serde::{Deserialize, Serialize};

use super::{Entry, PlanError, PlanFor};
use crate::{
    catalogue::{rebook::RebookRules, treatment::Removal},
    regrowth::curve::Regrowth,
    visit::Treatment,
};

/// What coming at the usual time would do. Shares are thousandths of the hairs that were there before.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Alternative {
    pub treatment: Treatment,
    /// The day that the studio, else the trade, calls best: so many days after the visit.
    pub tidy_day: u16,
    /// Long enough to be held on that day.
    pub tidy_share: u16,
    /// Long enough to be held on `full_from`, and that date.
    pub full_share: u16,
    pub full_from: NaiveDate,
    pub full_day: u16,
}

/// `None` where the usual time already catches enough for a full removal, and where that
/// much never comes.
pub(super) fn alternative(
    rules: &RebookRules,
    (treatment, entry): Entry<'_>,
    removal: &Removal,
    regrowth: &Regrowth,
    visit: &PlanFor<'_>,
) -> Result<Option<Alternative>, PlanError> {
    let length = removal.graspable_mm.value;
    let own_best = visit
        .practice
        .intervals
        .get(&treatment)
        .and_then(|own| own.best_days);
    let tidy_day = own_best.unwrap_or(entry.interval.best_days);
    let full = regrowth.first_day_graspable(rules.graspable_full.value, length);
    let Some(full_day) = full.and_then(|day| u16::try_from(day).ok()) else {
        return Ok(None);
    };
    if full_day <= tidy_day {
        return Ok(None);
    }
    let share = |day: u16| {
        let share = regrowth.graspable(day.into(), length);
        (share.clamp(0.0, 1.0) * 1000.0).round() as u16
    };
    Ok(Some(Alternative {
        treatment,
        tidy_day,
        tidy_share: share(tidy_day),
        full_share: share(full_day),
        full_from: visit
            .local_date
            .checked_add_days(Days::new(full_day.into()))
            .ok_or(PlanError::OutOfCalendar)?,
        full_day,
    }))
}
