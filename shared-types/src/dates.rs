//! How a date and a time at the studio are written, in the words of one language.
//!
//! The language file gives `date.weekday.1` (Monday) to `.7` and `date.month.1` (January) to `.12` as full forms
//! (numbers as in ISO 8601), and one pattern for each way of writing below, with the placeholders `{weekday}`,
//! `{day}`, `{month}`, `{year}`, `{hour}` and `{minute}`.

use chrono::{Datelike, NaiveDate, NaiveDateTime, Timelike};

use crate::words::Words;

/// The keys of the patterns, for the content check.
pub const PATTERNS: &[&str] = &[
    "date.day_time",
    "date.date_time",
    "date.date_time_year",
    "date.date",
    "date.date_year",
];

/// From this many days on, a weekday alone would be ambiguous.
const WEEK: i64 = 7;
/// From this many days on, a date without its year would be.
const HALF_A_YEAR: i64 = 183;

/// A moment as clearly as it needs: "Thursday 14:30" when it is less than a week from `beside` (the day of what it
/// refers to, or today), else "Thursday 3 December 14:30", with the year from half a year on.
pub fn moment(words: &Words, at: NaiveDateTime, beside: NaiveDate) -> String {
    let key = match (at.date() - beside).num_days().abs() {
        0..WEEK => "date.day_time",
        WEEK..HALF_A_YEAR => "date.date_time",
        _ => "date.date_time_year",
    };
    write(words, key, at)
}

/// A date: "Monday 28 December", with the year from half a year from `beside` on.
pub fn date(words: &Words, on: NaiveDate, beside: NaiveDate) -> String {
    let far = (on - beside).num_days().abs() >= HALF_A_YEAR;
    write(
        words,
        if far { "date.date_year" } else { "date.date" },
        on.into(),
    )
}

fn write(words: &Words, pattern: &str, at: NaiveDateTime) -> String {
    let weekday = format!("date.weekday.{}", at.weekday().number_from_monday());
    let month = format!("date.month.{}", at.month());
    words.fill(
        pattern,
        &[
            ("weekday", words.say(&weekday)),
            ("day", &at.day().to_string()),
            ("month", words.say(&month)),
            ("year", &at.year().to_string()),
            ("hour", &format!("{:02}", at.hour())),
            ("minute", &format!("{:02}", at.minute())),
        ],
    )
}
