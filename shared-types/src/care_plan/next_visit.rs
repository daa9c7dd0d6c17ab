//! When to come back.

use std::{fmt, str::FromStr};

use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

use super::{
    Alternative, DateSpan, Entry, PlanError, PlanFor, Wait,
    alternative::alternative,
    join,
    person::Paces,
    practice::Aim,
    regrowth, regrowth_at,
    suggest::{Due, suggest},
    window_days::WindowDays,
};
use crate::{
    catalogue::{
        Catalogue,
        caution::Grade,
        rebook::RebookRules,
        treatment::{Removal, Tint, TradeInterval, TreatmentEntry},
    },
    regrowth::curve::Regrowth,
    visit::{Treatment, UnknownTerm, terms},
};

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct NextVisit {
    /// One for each treatment, in the order of [`Treatment::ALL`].
    pub windows: Vec<Window>,
    /// For the whole visit, on days on which the studio is open.
    pub suggested: Option<DateSpan>,
    /// What the studio aims at, where that decided the suggested days.
    #[serde(default)]
    pub led_by: Option<Aim>,
    /// The suggested days are all closed, and so are those after them that would still be in time.
    #[serde(default)]
    pub no_open_day: bool,
    /// The treatments that did not decide the suggested days.
    #[serde(default)]
    pub waits: Vec<Wait>,
    /// What an earlier visit would do, where that tells something.
    #[serde(default)]
    pub alternative: Option<Alternative>,
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
    /// What the model or the trade says, where the studio's own days are others.
    #[serde(default)]
    pub usual: Option<Usual>,
}

/// A window as it would be without the studio's own interval: `earliest <= best <= latest`.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Usual {
    pub earliest: NaiveDate,
    pub best: NaiveDate,
    pub latest: NaiveDate,
    pub reason: WindowReason,
}

terms! {
    /// What a window follows; its sentence is the word `window.<reason>`.
    WindowReason {
        /// The regrowth model.
        Regrowth = "regrowth",
        /// The regrowth model, held back to the earliest day of the trade.
        RegrowthHeldBack = "regrowth_held_back",
        /// The model of the tint: at its best as long as the colour is still even.
        TintEven = "tint_even",
        /// The interval of the trade.
        Interval = "interval",
        /// The studio's own interval.
        Own = "own",
        /// The studio's own interval, which knowingly begins before the trade's.
        OwnSooner = "own_sooner",
    }
}

impl WindowReason {
    /// Whether the studio set it for itself.
    pub const fn is_own(self) -> bool {
        matches!(self, Self::Own | Self::OwnSooner)
    }
}

pub(super) fn next_visit(
    catalogue: &Catalogue,
    entries: &[Entry<'_>],
    visit: &PlanFor<'_>,
) -> Result<NextVisit, PlanError> {
    let mut dues = Vec::new();
    let mut told = None;
    let paces = visit.person.paces(catalogue);
    for entry in entries {
        let hair = Hair::of(catalogue, *entry, paces)?;
        dues.push(due(catalogue, *entry, hair, visit)?);
        if let (None, Hair::Removed(removal, regrowth, _)) = (&told, &hair) {
            told = alternative(&catalogue.rebook, *entry, removal, regrowth, visit)?;
        }
    }
    let led_by = dues
        .iter()
        .any(|due| due.leads)
        .then_some(visit.practice.prefers);
    let suggestion = suggest(&dues, visit.practice);
    let suggested = suggestion.as_ref().map(|one| one.span);
    let (no_open_day, waits) =
        suggestion.map_or((false, Vec::new()), |one| (one.no_open_day, one.waits));
    Ok(NextVisit {
        windows: dues.into_iter().map(|due| due.window).collect(),
        suggested,
        led_by,
        no_open_day,
        waits,
        alternative: told,
    })
}

/// What a next visit has to wait for, and how it comes about.
#[derive(Clone, Copy)]
enum Hair<'a> {
    Removed(&'a Removal, Regrowth, Spread),
    Dyed(&'a Tint, Regrowth),
    /// Only for what the trade has found out, or nobody can say how hair comes about.
    Neither,
}

/// The windows of the fastest and of the slowest pace that a window has room for.
#[derive(Clone, Copy)]
struct Spread {
    fast: WindowDays,
    slow: WindowDays,
}

impl<'a> Hair<'a> {
    fn of(
        catalogue: &Catalogue,
        (treatment, entry): Entry<'a>,
        paces: Option<Paces>,
    ) -> Result<Self, PlanError> {
        let Some(paces) = paces else {
            return Ok(Self::Neither);
        };
        Ok(match (&entry.removal, &entry.tint) {
            (Some(removal), _) => {
                let at = |pace| regrowth_at(catalogue, entry.area, removal, pace);
                let days = |pace| {
                    WindowDays::of_regrowth(treatment, &at(pace)?, removal, &catalogue.rebook)
                };
                let spread = Spread {
                    fast: days(paces.fast)?,
                    slow: days(paces.slow)?,
                };
                Self::Removed(removal, at(paces.middle)?, spread)
            }
            (None, Some(tint)) => Self::Dyed(tint, regrowth(catalogue, entry.area, paces.middle)?),
            (None, None) => Self::Neither,
        })
    }
}

/// The window of one treatment, and the days in it that the studio aims at.
fn due(
    catalogue: &Catalogue,
    (treatment, entry): Entry<'_>,
    hair: Hair<'_>,
    visit: &PlanFor<'_>,
) -> Result<Due, PlanError> {
    let rules = &catalogue.rebook;
    let (usual, usual_reason, basis, sources) = usual(rules, treatment, entry, hair)?;
    let trade_earliest = entry.interval.earliest_days.into();
    let own = visit.practice.intervals.get(&treatment);
    let own = own.filter(|own| own.given().next().is_some());
    let days = own.map_or(usual, |own| usual.with_own(own, trade_earliest));
    let reason = match own {
        Some(_) if days.earliest < trade_earliest => WindowReason::OwnSooner,
        Some(_) => WindowReason::Own,
        None => usual_reason,
    };
    let [earliest, best, comfortable_until, latest] = days.dates(visit.local_date)?;
    let usual_dates = usual.dates(visit.local_date)?;
    let window = Window {
        treatment,
        earliest,
        best,
        comfortable_until,
        latest,
        reason,
        basis,
        sources,
        usual: (days != usual).then_some(Usual {
            earliest: usual_dates[0],
            best: usual_dates[1],
            latest: usual_dates[3],
            reason: usual_reason,
        }),
    };
    let (from, until, leads) = match (visit.practice.prefers, hair) {
        (Aim::ShapeUpkeep, Hair::Removed(..)) | (Aim::ColourKept, Hair::Dyed(..)) => {
            (earliest, best, true)
        }
        (Aim::FullRegrowth, Hair::Removed(removal, regrowth, _)) => {
            let length = removal.graspable_mm.value;
            let full = regrowth
                .first_day_graspable(rules.graspable_full.value, length)
                .unwrap_or(days.latest);
            // An own latest day that comes before that still leaves some days to choose from.
            let from = if full < days.latest {
                full
            } else {
                days.latest
                    .saturating_sub(rules.comfortable_days.value as u32)
            };
            let aimed = WindowDays {
                best: from.max(days.best),
                ..days
            };
            (aimed.dates(visit.local_date)?[1], latest, true)
        }
        _ => (best, comfortable_until, false),
    };
    Ok(Due {
        window,
        target: DateSpan { from, until },
        leads,
    })
}

/// The window that the model or the trade gives, with what it follows and who says so.
fn usual(
    rules: &RebookRules,
    treatment: Treatment,
    entry: &TreatmentEntry,
    hair: Hair<'_>,
) -> Result<(WindowDays, WindowReason, Grade, Vec<String>), PlanError> {
    let interval = &entry.interval;
    let (days, reason, basis, sources) = match hair {
        Hair::Removed(removal, regrowth, spread) => {
            let model = WindowDays::of_regrowth(treatment, &regrowth, removal, rules)?
                .stretched(spread.fast, spread.slow);
            let held_back = model.not_before(interval.earliest_days.into());
            if held_back == model {
                let sources = removal.sources.clone();
                return Ok((model, WindowReason::Regrowth, removal.grade, sources));
            }
            let reason = WindowReason::RegrowthHeldBack;
            (held_back, reason, removal.grade, &removal.sources[..])
        }
        Hair::Dyed(tint, regrowth) => match WindowDays::of_tint(&regrowth, interval, rules) {
            Some(days) => (
                days,
                WindowReason::TintEven,
                interval.grade,
                &tint.sources[..],
            ),
            None => by_the_trade(interval),
        },
        Hair::Neither => by_the_trade(interval),
    };
    let mut sources = sources.to_vec();
    join(&mut sources, interval.sources.iter().cloned());
    Ok((days, reason, basis, sources))
}

fn by_the_trade(interval: &TradeInterval) -> (WindowDays, WindowReason, Grade, &[String]) {
    let days = WindowDays::of_interval(interval);
    (days, WindowReason::Interval, interval.grade, &[])
}
