//! When to come back.

use std::{fmt, str::FromStr};

use chrono::{Days, NaiveDate};
use serde::{Deserialize, Serialize};

use super::{Entry, PlanError, join, regrowth_after};
use crate::{
    catalogue::{
        Catalogue,
        caution::Grade,
        figure::Figure,
        rebook::RebookRules,
        treatment::{Removal, TradeInterval, TreatmentEntry},
    },
    regrowth::curve::Regrowth,
    visit::{Treatment, UnknownTerm, terms},
};

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct NextVisit {
    /// One for each treatment, in the order of [`Treatment::ALL`].
    pub windows: Vec<Window>,
    /// For the whole visit; see [`suggested`].
    pub suggested: Option<DateSpan>,
}

/// Dates at the studio: `earliest <= best <= latest`.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Window {
    pub treatment: Treatment,
    pub earliest: NaiveDate,
    pub best: NaiveDate,
    /// The last date of a comfortable time to come: `best <= comfortable_until <= latest`.
    pub comfortable_until: NaiveDate,
    pub latest: NaiveDate,
    pub reason: WindowReason,
    pub basis: Grade,
    pub sources: Vec<String>,
}

terms! {
    /// What a window follows; its sentence is the word `window.<reason>`.
    WindowReason {
        /// The regrowth model.
        Regrowth = "regrowth",
        /// The regrowth model, held back to the earliest day of the trade.
        RegrowthHeldBack = "regrowth_held_back",
        /// The interval of the trade.
        Interval = "interval",
    }
}

/// Both ends included; `from <= until`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct DateSpan {
    pub from: NaiveDate,
    pub until: NaiveDate,
}

pub(super) fn next_visit(
    catalogue: &Catalogue,
    entries: &[Entry<'_>],
    visit_date: NaiveDate,
) -> Result<NextVisit, PlanError> {
    let windows = entries
        .iter()
        .map(|(treatment, entry)| window(catalogue, *treatment, entry, visit_date))
        .collect::<Result<Vec<_>, _>>()?;
    let suggested = suggested(&windows);
    Ok(NextVisit { windows, suggested })
}

/// The time for one visit that repeats everything that was done: the days that are comfortable for every treatment.
/// Where there are none, the comfortable days of the treatment that is ready last, cut at the first `latest` of the
/// others, though never before the day on which the last treatment is at its best. So it never begins before any
/// treatment's `earliest`, and `from <= until`. `None` without windows.
pub fn suggested(windows: &[Window]) -> Option<DateSpan> {
    let slowest = windows.iter().max_by_key(|one| one.best)?;
    let from = slowest.best;
    let shared_end = windows.iter().map(|one| one.comfortable_until).min()?;
    let until = if shared_end >= from {
        shared_end
    } else {
        let first_latest = windows.iter().map(|one| one.latest).min()?;
        slowest.comfortable_until.min(first_latest).max(from)
    };
    Some(DateSpan { from, until })
}

fn window(
    catalogue: &Catalogue,
    treatment: Treatment,
    entry: &TreatmentEntry,
    visit_date: NaiveDate,
) -> Result<Window, PlanError> {
    let interval = &entry.interval;
    let (days, reason, basis, mut sources) = match &entry.removal {
        None => (
            WindowDays::of_interval(interval),
            WindowReason::Interval,
            interval.grade,
            interval.sources.clone(),
        ),
        Some(removal) => {
            let regrowth = regrowth_after(catalogue, entry.area, removal)?;
            let model = WindowDays::of_regrowth(treatment, &regrowth, removal, &catalogue.rebook)?;
            let held_back = model.not_before(interval.earliest_days.into());
            let reason = if held_back == model {
                WindowReason::Regrowth
            } else {
                WindowReason::RegrowthHeldBack
            };
            (held_back, reason, removal.grade, removal.sources.clone())
        }
    };
    if reason == WindowReason::RegrowthHeldBack {
        join(&mut sources, interval.sources.iter().cloned());
    }
    let on = |day: u32| {
        visit_date
            .checked_add_days(Days::new(day.into()))
            .ok_or(PlanError::OutOfCalendar)
    };
    Ok(Window {
        treatment,
        earliest: on(days.earliest)?,
        best: on(days.best)?,
        comfortable_until: on(days.comfortable_until)?,
        latest: on(days.latest)?,
        reason,
        basis,
        sources,
    })
}

/// A window in whole days from the visit: `earliest <= best <= comfortable_until <= latest`.
#[derive(Clone, Copy, PartialEq, Eq)]
struct WindowDays {
    earliest: u32,
    best: u32,
    comfortable_until: u32,
    latest: u32,
}

impl WindowDays {
    /// From the best day on, the trade's interval is comfortable.
    fn of_interval(interval: &TradeInterval) -> Self {
        let latest = interval.latest_days.into();
        Self {
            earliest: interval.earliest_days.into(),
            best: interval.best_days.into(),
            comfortable_until: latest,
            latest,
        }
    }

    /// The first whole days on which the shares of [`RebookRules`] are reached.
    fn of_regrowth(
        treatment: Treatment,
        regrowth: &Regrowth,
        removal: &Removal,
        rules: &RebookRules,
    ) -> Result<Self, PlanError> {
        let length = removal.graspable_mm.value;
        let never = |figure| PlanError::NeverReached { treatment, figure };
        let visible =
            |share: &Figure, name| regrowth.first_day_visible(share.value).ok_or(never(name));
        let graspable = |share: &Figure, name| {
            regrowth
                .first_day_graspable(share.value, length)
                .ok_or(never(name))
        };
        let best = visible(&rules.visible_best, "visible_best")?
            .max(graspable(&rules.graspable_best, "graspable_best")?);
        // Short hairs can be held before enough of them show: then the comfortable time would end before it began.
        let comfortable_until = graspable(&rules.graspable_comfortable, "graspable_comfortable")?
            .max(best + rules.comfortable_days.value as u32);
        let latest = graspable(&rules.graspable_latest, "graspable_latest")?.max(best);
        Ok(Self {
            earliest: visible(&rules.visible_earliest, "visible_earliest")?.min(best),
            best,
            comfortable_until: comfortable_until.min(latest),
            latest,
        })
    }

    fn not_before(self, floor: u32) -> Self {
        Self {
            earliest: self.earliest.max(floor),
            best: self.best.max(floor),
            comfortable_until: self.comfortable_until.max(floor),
            latest: self.latest.max(floor),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn day(n: u64) -> NaiveDate {
        NaiveDate::default() + Days::new(n)
    }

    fn window(earliest: u64, best: u64, comfortable_until: u64, latest: u64) -> Window {
        Window {
            treatment: Treatment::BrowWax,
            earliest: day(earliest),
            best: day(best),
            comfortable_until: day(comfortable_until),
            latest: day(latest),
            reason: WindowReason::Interval,
            basis: Grade::CommonPractice,
            sources: Vec::new(),
        }
    }

    fn suggestion(windows: &[Window]) -> Option<(NaiveDate, NaiveDate)> {
        suggested(windows).map(|span| (span.from, span.until))
    }

    #[test]
    fn without_windows_there_is_no_suggestion() {
        assert_eq!(suggestion(&[]), None);
    }

    #[test]
    fn comfortable_times_that_overlap_are_shared() {
        let both = [window(28, 32, 43, 59), window(28, 35, 42, 42)];
        assert_eq!(suggestion(&both), Some((day(35), day(42))));
    }

    #[test]
    fn otherwise_the_slowest_decides_and_the_first_latest_cuts() {
        let apart = [window(20, 25, 30, 40), window(30, 35, 50, 60)];
        assert_eq!(suggestion(&apart), Some((day(35), day(40))));
    }

    #[test]
    fn a_treatment_that_is_ready_too_late_still_gets_its_best_day() {
        let far = [window(7, 10, 14, 21), window(40, 45, 50, 60)];
        assert_eq!(suggestion(&far), Some((day(45), day(45))));
    }

    #[test]
    fn the_trade_holds_back_a_window_that_comes_early_and_leaves_a_later_one() {
        let model = WindowDays {
            earliest: 10,
            best: 14,
            comfortable_until: 21,
            latest: 30,
        };
        let held = model.not_before(21);
        let days = [
            held.earliest,
            held.best,
            held.comfortable_until,
            held.latest,
        ];
        assert_eq!(days, [21, 21, 21, 30]);
        assert!(model.not_before(10) == model);
    }
}
