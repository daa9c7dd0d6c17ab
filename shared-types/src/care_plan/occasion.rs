//! A date to look one's best for: the visit a few days before it, and what has to be done or left before that visit,
//! planned back from the date. Where the date cannot be met well, it says so.
//!
//! Everything counts in whole days at the studio, because nobody has fixed an hour yet. Hours are turned into days so
//! that they hold at whatever time of day the visit will be.

use chrono::{Days, Months, NaiveDate};

use super::{Because, Before, CarePlan, DateSpan, Practice, Window};
use crate::{
    catalogue::treatment::{Act, Lead},
    visit::{CautionKind, Treatment},
};

/// What a date is planned back from.
#[derive(Clone, Copy, Debug)]
pub struct OccasionFor<'a> {
    /// The plan of the visit before.
    pub plan: &'a CarePlan,
    /// The date of that visit at the studio.
    pub visit_date: NaiveDate,
    /// The date to look one's best for.
    pub date: NaiveDate,
    pub today: NaiveDate,
    /// Says on which days the studio is open.
    pub practice: &'a Practice,
    /// Days between the visit and the date: at least, at most.
    pub days_before: (u16, u16),
}

/// The way to the date. No day in it lies before today, and none is too early for a treatment that is `done` then.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Occasion {
    /// When to come; each end is a day on which the studio is open. `None` when no day is left, or allowed.
    pub visit: Option<DateSpan>,
    /// What can be done then, in the order of the windows.
    pub done: Vec<Treatment>,
    /// For a visit on the first of its days, by date, so that they hold for each of them.
    pub preparations: Vec<Preparation>,
    /// What still has to be left on the date itself, in the plan's order.
    pub still: Vec<StillLeft>,
    /// The same of what the studio added to the catalogue: its id, and whether it is so whichever of the days is taken.
    pub still_added: Vec<(String, bool)>,
    /// A visit in between, where the date lies beyond the latest day of something that is done.
    pub in_between: Option<InBetween>,
    /// Why the date cannot be met, or not as well as it might.
    pub troubles: Vec<Trouble>,
}

/// Something to leave from a day on ([`Act::Leave`]), or to have done on a day at the latest ([`Act::Do`]).
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Preparation {
    pub on: NaiveDate,
    pub rule: Before,
}

/// A caution of the visit that may not be over when the date begins.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct StillLeft {
    pub kind: CautionKind,
    /// Whichever of the days is taken; else only after a visit on the last of them.
    pub whenever: bool,
}

/// A visit between this one and the one before the date.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct InBetween {
    pub span: DateSpan,
    /// Whether one is not enough: the date lies beyond the latest day counted from that visit, too.
    pub and_more: bool,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Trouble {
    /// The date is over.
    Past,
    /// No day is left that lies far enough before the date.
    NoDayLeft,
    /// The studio is closed on all the days that would be right; the visit is on the last open day before them, if any.
    Closed,
    /// Too early for this: it has to wait for its earliest day.
    TooSoon {
        treatment: Treatment,
        earliest: NaiveDate,
    },
    /// No time is left for this before the visit.
    NoTime { rule: Before },
    /// Later than is good for this, and no visit fits in between.
    Late { treatment: Treatment },
}

/// Plans back from a date.
pub fn plan_back(given: &OccasionFor<'_>) -> Occasion {
    let windows = &given.plan.next_visit.windows;
    let mut found = Occasion::default();
    if given.date < given.today {
        found.troubles.push(Trouble::Past);
        return found;
    }
    let days = given.right_days(&mut found.troubles);
    let Some(last) = days.last().copied() else {
        return found;
    };
    // A later day allows all that an earlier one does: the last one decides what can be done, and the days on which
    // all of that can be done reach up to it.
    for window in windows {
        if window.earliest <= last {
            found.done.push(window.treatment);
        } else {
            found.troubles.push(Trouble::TooSoon {
                treatment: window.treatment,
                earliest: window.earliest,
            });
        }
    }
    let done: Vec<&Window> = windows
        .iter()
        .filter(|window| window.earliest <= last)
        .collect();
    if done.is_empty() {
        return found;
    }
    let rules: Vec<&Before> = given
        .plan
        .before_next_visit
        .iter()
        .filter(|rule| concerns(&rule.because, &found.done))
        .collect();
    // The same holds for what there is time to prepare.
    let in_time = |rule: &Before, day| date_of(rule, day).is_none_or(|on| on >= given.today);
    let from = days
        .iter()
        .copied()
        .filter(|day| done.iter().all(|window| window.earliest <= *day))
        .find(|day| {
            rules
                .iter()
                .copied()
                .all(|rule| in_time(rule, *day) || !in_time(rule, last))
        })
        .unwrap_or(last);
    found.visit = Some(DateSpan { from, until: last });

    let (in_time, too_late): (Vec<_>, Vec<_>) = preparations(rules, from)
        .into_iter()
        .partition(|one| one.on >= given.today);
    found.preparations = in_time;
    let too_late = too_late
        .into_iter()
        .map(|Preparation { rule, .. }| Trouble::NoTime { rule });
    found.troubles.extend(too_late);
    found.still = given.still_left(&found.done, from, last);
    found.still_added = given.still_added(&found.done, from, last);
    given.mind_the_latest(&done, from, &mut found);
    found
}

impl OccasionFor<'_> {
    /// The open days from today on that lie as long before the date as they should, in order.
    fn right_days(&self, troubles: &mut Vec<Trouble>) -> Vec<NaiveDate> {
        let (least, most) = self.days_before;
        let from_today = |days: std::ops::RangeInclusive<u16>| {
            days.rev()
                .filter_map(|n| self.date.checked_sub_days(Days::new(n.into())))
                .filter(|day| *day >= self.today)
                .collect::<Vec<_>>()
        };
        let is_open = |day: &NaiveDate| self.practice.is_open(*day);
        let mut days = from_today(least..=most);
        if days.is_empty() {
            troubles.push(Trouble::NoDayLeft);
            return days;
        }
        days.retain(is_open);
        if days.is_empty() {
            troubles.push(Trouble::Closed);
            // Within a week every weekday comes once.
            let before = from_today(most..=most.saturating_add(6));
            days.extend(before.into_iter().rfind(is_open));
        }
        days
    }

    /// A visit ends before its day does; from then the cautions' hours count, and the date begins at midnight.
    fn still_left(&self, done: &[Treatment], from: NaiveDate, last: NaiveDate) -> Vec<StillLeft> {
        self.plan
            .cautions
            .iter()
            .filter(|caution| concerns(&caution.because, done) && self.may_run(caution.hours, last))
            .map(|caution| StillLeft {
                kind: caution.kind,
                whenever: self.may_run(caution.hours, from),
            })
            .collect()
    }

    fn still_added(
        &self,
        done: &[Treatment],
        from: NaiveDate,
        last: NaiveDate,
    ) -> Vec<(String, bool)> {
        let added = self.plan.added.iter();
        added
            .filter(|one| one.because.iter().any(|treatment| done.contains(treatment)))
            .filter(|one| self.may_run(one.hours, last))
            .map(|one| (one.id.clone(), self.may_run(one.hours, from)))
            .collect()
    }

    fn may_run(&self, hours: u32, visit: NaiveDate) -> bool {
        i64::from(hours) > ((self.date - visit).num_days() - 1) * 24
    }

    /// A date beyond the latest day of something: a visit in between, if both visits can keep their distance.
    fn mind_the_latest(&self, done: &[&Window], visit: NaiveDate, found: &mut Occasion) {
        let late: Vec<Treatment> = done
            .iter()
            .filter(|window| window.latest < visit)
            .map(|window| window.treatment)
            .collect();
        if late.is_empty() {
            return;
        }
        let days = |to: Option<NaiveDate>| {
            let days = to.map_or(0, |to| (to - self.visit_date).num_days());
            Days::new(u64::try_from(days).unwrap_or(0))
        };
        let shortest = days(done.iter().map(|window| window.earliest).max());
        let longest = days(done.iter().map(|window| window.latest).min());
        let span = visit
            .checked_sub_days(shortest)
            .and_then(|limit| self.span_in_between(limit));
        found.in_between = span.map(|span| InBetween {
            span,
            and_more: span
                .until
                .checked_add_days(longest)
                .is_some_and(|end| end < visit),
        });
        if found.in_between.is_none() {
            let late = late
                .into_iter()
                .map(|treatment| Trouble::Late { treatment });
            found.troubles.extend(late);
        }
    }

    /// The suggested time, moved to today where it is over, and cut at `limit`; between open days.
    fn span_in_between(&self, limit: NaiveDate) -> Option<DateSpan> {
        let usual = self.plan.next_visit.suggested?;
        let from = usual.from.max(self.today);
        let as_long = u64::try_from((usual.until - usual.from).num_days()).unwrap_or(0);
        let until = if usual.until >= from {
            usual.until
        } else {
            from.checked_add_days(Days::new(as_long))?
        };
        let is_open = |day: &NaiveDate| self.practice.is_open(*day);
        let until = until.min(limit);
        let mut open = from
            .iter_days()
            .take_while(|day| *day <= until)
            .filter(is_open);
        let from = open.next()?;
        Some(DateSpan {
            from,
            until: open.last().unwrap_or(from),
        })
    }
}

/// What has to be done or left before a visit on a day, by date.
pub fn preparations<'a>(
    rules: impl IntoIterator<Item = &'a Before>,
    visit: NaiveDate,
) -> Vec<Preparation> {
    let dated = rules.into_iter().filter_map(|rule| {
        let rule = rule.clone();
        date_of(&rule, visit).map(|on| Preparation { on, rule })
    });
    let mut all: Vec<Preparation> = dated.collect();
    all.sort_by_key(|one| one.on);
    all
}

/// Whether something is called for by one of the treatments, or by none in particular.
fn concerns(because: &[Because], treatments: &[Treatment]) -> bool {
    let mut named = because.iter().filter_map(|one| match one {
        Because::Treatment(treatment) => Some(treatment),
        Because::Finding(_) => None,
    });
    match named.next() {
        None => true,
        Some(first) => treatments.contains(first) || named.any(|one| treatments.contains(one)),
    }
}

/// The day that a rule names for a visit: the first on which something is left, or the last on which it can be done.
/// `None` for what holds the whole time between visits or on the day of the visit alone, and for what is only told.
///
/// The hour of the visit is not known. So leaving begins with the day of the first hour that can be meant, and doing
/// ends with the last day that is over by then.
fn date_of(rule: &Before, visit: NaiveDate) -> Option<NaiveDate> {
    let day = match (rule.act, rule.lead) {
        (Act::Tell, _) | (_, Lead::Throughout | Lead::OnTheDay) => return None,
        (Act::Leave, Lead::Hours(hours)) => {
            visit.checked_sub_days(Days::new(u64::from(hours).div_ceil(24)))
        }
        (Act::Do, Lead::Hours(hours)) => {
            visit.checked_sub_days(Days::new(u64::from(hours).div_ceil(24) + 1))
        }
        (_, Lead::Days(days)) => visit.checked_sub_days(Days::new(days.into())),
        (_, Lead::Months(months)) => visit.checked_sub_months(Months::new(months)),
    };
    Some(day.unwrap_or(NaiveDate::MIN))
}

#[cfg(test)]
mod tests;
