//! The client's dates, on the page and for a calendar.

use mobile::client::still::Dates;

use super::{super::occasion::Telling, Source};
use crate::{calendar::Calendar, handlers::client::Holder, state::Studio};

/// The form of the date to look one's best for, as it came back.
#[derive(Default)]
pub struct Typed {
    pub date: String,
    /// Empty for a fresh form.
    pub fault: String,
}

/// The client's dates; none for advice from before there were dates to count from.
pub fn dates(studio: &Studio, source: &Source, holder: &Holder, typed: Typed) -> Option<Dates> {
    let telling = telling(studio, source)?;
    let today = telling.wall.day(holder.now.0);
    let calendar_web = with_calendar(studio, source, holder, |calendar| calendar.web_address())
        .unwrap_or_default();
    let mut dates = match &source.date {
        Some(date) => {
            let found = telling.plan_back(date, today);
            let on = shared_types::dates::date(telling.wall.words, date.on, today);
            Dates {
                title: telling.wall.words.fill("occasion.title", &[("date", &on)]),
                said: telling.said(date, &found, today),
                steps: telling.steps(&found, today),
                typed: date.on.to_string(),
                ..Dates::default()
            }
        }
        None => Dates::default(),
    };
    dates.calendar_web = calendar_web;
    if !typed.fault.is_empty() {
        dates.typed = typed.date;
        dates.fault = Some(typed.fault);
    }
    Some(dates)
}

/// What `with` makes of the visit's dates for a calendar; nothing where there are none.
pub fn with_calendar<T>(
    studio: &Studio,
    source: &Source,
    holder: &Holder,
    with: impl FnOnce(&Calendar<'_>) -> Option<T>,
) -> Option<T> {
    let telling = telling(studio, source)?;
    let found = source
        .date
        .map(|date| telling.plan_back(&date, telling.wall.day(date.given_at)));
    with(&Calendar {
        visit: holder.visit,
        telling,
        studio: &source.studio,
        occasion: found.as_ref(),
        sequence: holder.stamp.calendar_sequence(),
        now: holder.now.0,
    })
}

fn telling<'a>(studio: &'a Studio, source: &'a Source) -> Option<Telling<'a>> {
    Some(Telling {
        wall: source.wall(studio),
        studio: &source.studio.name,
        plan: source.advice.plan.as_ref()?,
        finished_at: source.finished_at,
        practice: &source.practice,
    })
}
