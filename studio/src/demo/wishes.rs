//! The demo's wishes for a time: one that waits, and one that was answered.

use chrono::{DateTime, Days, TimeDelta, TimeZone, Utc};
use chrono_tz::Tz;
use rusqlite::Transaction;
use shared_types::wish::{Preferred, Wish};
use uuid::Uuid;

use super::{Kind, id};
use crate::record::{
    RecordError,
    wishes::{
        self,
        events::{self, Answer},
    },
};

struct Asked {
    /// Which story's client, from 1.
    story: u32,
    hours_ago: i64,
    /// Days from now and hour; no hour when any time of that day would do.
    times: &'static [(u64, Option<u32>)],
    words: &'static str,
    /// What the studio answered half an hour later, agreeing to the first time.
    answer: Option<&'static str>,
}

const ASKED: &[Asked] = &[
    // Yusra.
    Asked {
        story: 6,
        hours_ago: 3,
        times: &[(8, Some(17)), (9, None), (12, Some(12))],
        words: "After work is best. Brow wax and tint again, please.",
        answer: None,
    },
    // Signe.
    Asked {
        story: 5,
        hours_ago: 26,
        times: &[(24, Some(10)), (25, None)],
        words: "",
        answer: Some(
            "I look forward to it, Signe. Please leave your retinol off as the page says.",
        ),
    },
];

/// Adds them to a record that has its stories.
pub fn make(
    record: &Transaction<'_>,
    artist: Uuid,
    zone: Tz,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    for asked in ASKED {
        let received = now - TimeDelta::hours(asked.hours_ago);
        let today = now.with_timezone(&zone).date_naive();
        let preferred = |(days, hour): &(u64, Option<u32>)| Preferred {
            date: (today + Days::new(*days)).to_string(),
            time: hour.map_or_else(String::new, |hour| format!("{hour}:30")),
        };
        let wish = Wish {
            times: asked.times.iter().map(preferred).collect(),
            words: asked.words.to_owned(),
            reach: String::new(),
        };
        let whose = |kind| id(kind, asked.story);
        let (visit, link) = (whose(Kind::Visit), whose(Kind::Link));
        wishes::take(record, whose(Kind::Wish), visit, link, &wish, received)?;
        let Some(answer) = asked.answer else { continue };
        let first = wish.times.first().and_then(|first| {
            let local = first.date()?.and_time(first.time()?);
            zone.from_local_datetime(&local).earliest()
        });
        let answer = Answer {
            text: answer.to_owned(),
            agreed: first.map(|at| at.to_utc()),
        };
        let at = received + TimeDelta::minutes(30);
        let (event, wish) = (whose(Kind::WishEvent), whose(Kind::Wish));
        events::answer(record, event, wish, &answer, artist, at)?;
    }
    Ok(())
}
