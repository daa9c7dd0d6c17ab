//! What goes into a client's calendar.

use chrono::{DateTime, TimeDelta, Utc};
use shared_types::{
    care_plan::{
        DateSpan,
        occasion::{Preparation, preparations},
    },
    catalogue::treatment::Act,
};

use super::Calendar;

/// One entry.
pub struct Item {
    /// Says which entry of its visit it is; the same for as long as the visit is in the record.
    pub key: String,
    pub when: When,
    pub title: String,
    /// When the calendar speaks up, from the beginning of the entry.
    pub alarm: TimeDelta,
}

#[derive(Clone, Copy)]
pub enum When {
    /// Whole days at the studio.
    Days(DateSpan),
    At(DateTime<Utc>),
}

pub const NEXT_VISIT: &str = "next-visit";

/// Nine in the morning: our own choice, so that nobody is woken by it.
const MORNING: TimeDelta = TimeDelta::hours(9);
/// The morning before, for what takes an appointment.
const MORNING_BEFORE: TimeDelta = TimeDelta::hours(9 - 24);

/// The entries that are not over, cautions first.
pub fn of(calendar: &Calendar<'_>) -> Vec<Item> {
    let mut items = ends_of_cautions(calendar);
    items.extend(visits(calendar));
    items.extend(before_the_visit(calendar));
    let today = calendar.telling.wall.day(calendar.now);
    items.retain(|item| match item.when {
        When::Days(span) => span.until >= today,
        When::At(at) => at > calendar.now,
    });
    items
}

/// One entry for each minute at which cautions end. They are told by number alone.
fn ends_of_cautions(calendar: &Calendar<'_>) -> Vec<Item> {
    let words = calendar.telling.wall.words;
    let ends = calendar.telling.plan.ends();
    let studio = &calendar.studio.name;
    let groups: Vec<_> = ends.chunk_by(|(a, _), (b, _)| a == b).collect();
    let last = groups.len().saturating_sub(1);
    let items = groups.iter().enumerate().filter_map(|(at, group)| {
        let (until, hours) = group.first()?;
        let title = if at == last {
            words.say("calendar.over").to_owned()
        } else {
            let n = i64::try_from(group.len()).unwrap_or(i64::MAX);
            words.count("calendar.some_over", n)
        };
        Some(Item {
            key: format!("cautions-{hours}"),
            when: When::At(*until),
            title: title.replace("{studio}", studio),
            alarm: TimeDelta::zero(),
        })
    });
    items.collect()
}

/// The next visit; and the one before the date, where another comes in between.
fn visits(calendar: &Calendar<'_>) -> Vec<Item> {
    let item = |key: &str, words: &str, span| Item {
        key: key.to_owned(),
        when: When::Days(span),
        title: title(calendar, words),
        alarm: MORNING,
    };
    let suggested = calendar.telling.plan.next_visit.suggested;
    let for_date = calendar.occasion.and_then(|one| one.visit);
    let between = calendar.occasion.and_then(|one| one.in_between);
    let (next, later) = match (for_date, between) {
        (Some(visit), None) => (
            Some(item(NEXT_VISIT, "calendar.occasion_visit", visit)),
            None,
        ),
        (Some(visit), Some(between)) => (
            Some(item(NEXT_VISIT, "calendar.next_visit", between.span)),
            Some(item("visit-for-date", "calendar.occasion_visit", visit)),
        ),
        (None, _) => (
            suggested.map(|span| item(NEXT_VISIT, "calendar.next_visit", span)),
            None,
        ),
    };
    next.into_iter().chain(later).collect()
}

/// What to do or to leave, for the visit before the date, or else for the suggested one.
fn before_the_visit(calendar: &Calendar<'_>) -> Vec<Item> {
    let plan = calendar.telling.plan;
    let all = match calendar.occasion.filter(|one| one.visit.is_some()) {
        Some(occasion) => occasion.preparations.clone(),
        None => plan
            .next_visit
            .suggested
            .map(|span| preparations(&plan.before_next_visit, span.from))
            .unwrap_or_default(),
    };
    let items = all.iter().map(|Preparation { on, rule }| {
        let (words, alarm) = match rule.act {
            Act::Do => ("calendar.do", MORNING_BEFORE),
            Act::Leave | Act::Tell => ("calendar.leave", MORNING),
        };
        Item {
            key: format!("before-{}", rule.id),
            when: When::Days(DateSpan {
                from: *on,
                until: *on,
            }),
            title: title(calendar, words),
            alarm,
        }
    });
    items.collect()
}

fn title(calendar: &Calendar<'_>, key: &str) -> String {
    let studio = [("studio", calendar.studio.name.as_str())];
    calendar.telling.wall.words.fill(key, &studio)
}
