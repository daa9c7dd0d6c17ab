//! Wishes as cards, lines and screens.

use super::{reports::shortened, wall::Wall};
use crate::record::wishes::{
    Held,
    events::{Event, Kind},
    inbox::Line,
};
use chrono::{DateTime, Days, NaiveDate, Utc};
use shared_types::{
    dates,
    page::{
        client::{AnswerCard, ComeBack, Moment, SentCard},
        wishes::{WishLine, WishTime},
    },
    visit::Treatment,
    wish::{Preferred, Wish},
};

/// The first good day to come back; `None` when it has come already.
pub fn good_day(
    come_back: Option<&ComeBack>,
    finished_at: DateTime<Utc>,
    wall: &Wall<'_>,
    now: DateTime<Utc>,
) -> Option<NaiveDate> {
    let good = wall.day(finished_at) + Days::new(come_back?.from_day.into());
    (good > wall.day(now)).then_some(good)
}

/// As their sender sees them.
pub fn cards(held: &[Held], wall: &Wall<'_>, now: DateTime<Utc>) -> Vec<SentCard> {
    let card = |held: &Held| SentCard {
        id: held.id,
        received: wall.moment(held.received_at, now),
        gist: gist(&held.wish, wall, wall.day(now)),
        answers: answers(held, wall, now),
        steps: Vec::new(),
        now: Vec::new(),
        ask: 0,
        agreed: held
            .agreed()
            .filter(|at| *at > now)
            .map_or_else(String::new, |at| appointment(at, wall, now).text),
        settled: !held.waiting,
    };
    held.iter().map(card).collect()
}

/// As the artist sees it in a list.
pub fn line(
    held: &Held,
    first_name: &str,
    treatments: &[Treatment],
    visit_finished: DateTime<Utc>,
    wall: &Wall<'_>,
    now: DateTime<Utc>,
) -> WishLine {
    WishLine {
        id: held.id,
        first_name: first_name.to_owned(),
        received: wall.moment(held.received_at, now),
        gist: gist(&held.wish, wall, wall.day(now)),
        agreed: held.agreed().map(|at| appointment(at, wall, now)),
        answered: is_answered(held),
        settled: !held.waiting,
        done: super::visits::done(treatments, wall.words),
        visit_finished: wall.moment(visit_finished, now),
    }
}

/// The lines of a list.
pub fn lines(lines: &[Line], wall: &Wall<'_>, now: DateTime<Utc>) -> Vec<WishLine> {
    let one = |one: &Line| {
        let (name, finished) = (&one.first_name, one.visit_finished);
        line(&one.held, name, &one.treatments, finished, wall, now)
    };
    lines.iter().map(one).collect()
}

fn is_answered(held: &Held) -> bool {
    let answered = |event: &Event| matches!(event.kind, Kind::Answered { .. });
    held.events.iter().any(answered)
}

/// The times, for the artist to take one. A time of today counts as over when it has passed, a whole day when it has.
pub fn times(wish: &Wish, wall: &Wall<'_>, now: DateTime<Utc>) -> Vec<WishTime> {
    let (clock, today) = (wall.local(now), wall.day(now));
    let time = |one: &Preferred| WishTime {
        text: preferred(one, wall, today),
        time: one.time.clone(),
        over: one.date().is_none_or(|date| {
            one.time()
                .map_or(date < today, |time| date.and_time(time) <= clock)
        }),
    };
    wish.times.iter().map(time).collect()
}

/// What the studio answered, oldest first, a time that was agreed to or called off in the studio's own words.
pub fn answers(held: &Held, wall: &Wall<'_>, now: DateTime<Utc>) -> Vec<AnswerCard> {
    let mut holds: Option<DateTime<Utc>> = None;
    let mut cards = Vec::new();
    for event in &held.events {
        let at_time = |key: &str, at| {
            wall.words
                .fill(key, &[("when", &appointment(at, wall, now).text)])
        };
        let text = match &event.kind {
            Kind::Answered { text, agreed } => {
                let time = agreed.map(|at| at_time("wish.agreed", at));
                holds = agreed.or(holds);
                let lines = time.iter().chain((!text.is_empty()).then_some(text));
                lines.cloned().collect::<Vec<_>>().join("\n")
            }
            Kind::CalledOff => match holds.take() {
                Some(at) => at_time("wish.called_off", at),
                None => continue,
            },
            Kind::Settled | Kind::Reopened => continue,
        };
        cards.push(AnswerCard {
            by: event.by.clone(),
            at: wall.moment(event.at, now),
            text,
        });
    }
    cards
}

/// Times and words, shortened to a line.
fn gist(wish: &Wish, wall: &Wall<'_>, today: NaiveDate) -> String {
    let times = wish.times.iter().map(|one| preferred(one, wall, today));
    let said = wish.words.split_whitespace().collect::<Vec<_>>().join(" ");
    let parts = times.chain((!said.is_empty()).then_some(said));
    shortened(parts.collect::<Vec<_>>().join(" · "))
}

/// "Thursday 3 December, 14:30", or the day alone.
fn preferred(one: &Preferred, wall: &Wall<'_>, today: NaiveDate) -> String {
    let day = one
        .date()
        .map_or_else(String::new, |date| dates::date(wall.words, date, today));
    if one.time.is_empty() {
        return day;
    }
    let parts = [("day", day.as_str()), ("time", &one.time)];
    wall.words.fill("wish.at", &parts)
}

/// A time to be there. Its date is always said, however near it is: somebody plans by it.
pub fn appointment(at: DateTime<Utc>, wall: &Wall<'_>, now: DateTime<Utc>) -> Moment {
    let local = wall.local(at);
    let time = Preferred {
        date: local.date().to_string(),
        time: local.format("%H:%M").to_string(),
    };
    Moment {
        at,
        text: preferred(&time, wall, wall.day(now)),
    }
}
