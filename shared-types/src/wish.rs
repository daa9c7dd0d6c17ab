//! A client's wish for a time at the studio, as it travels from the phone. It is no booking: the studio answers it.
//!
//! Days and times stay the texts that a form sends, checked: so the phone needs no calendar for them.

use chrono::{NaiveDate, NaiveTime, TimeDelta};
use serde::{Deserialize, Serialize};

pub use crate::reaction::REACH_MAX;
use crate::{page::form::Filled, reaction::Fault};

/// The most times that one wish may name.
pub const MOST: usize = 3;
/// The fields of the form that hold a day, the first choice first; and those of the times beside them.
pub const DATES: [&str; MOST] = ["date_1", "date_2", "date_3"];
pub const TIMES: [&str; MOST] = ["time_1", "time_2", "time_3"];
/// All that a client fills in, in the order of the form.
pub const FIELDS: [&str; 8] = [
    "date_1",
    "time_1",
    "date_2",
    "time_2",
    "date_3",
    "time_3",
    "wish_words",
    "wish_reach",
];
/// Longest free text, in characters: a few words.
pub const WORDS_MAX: usize = 500;
/// A day further ahead than this is more likely a slip of the finger.
const FARTHEST_DAYS: i64 = 366;

/// A time that would suit the client, as on the studio's wall.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Preferred {
    /// YYYY-MM-DD.
    pub date: String,
    /// HH:MM; empty: any time on that day.
    pub time: String,
}

/// What the client sends. The id travels beside it (in the address), made by the sender.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Wish {
    /// The first choice first, each once.
    pub times: Vec<Preferred>,
    pub words: String,
    /// Telephone or e-mail, where it is not the one that the studio has.
    pub reach: String,
}

/// The days that a wish may name, both included, YYYY-MM-DD.
#[derive(Clone, Copy, Debug)]
pub struct Span<'a> {
    pub first: &'a str,
    pub last: &'a str,
}

impl<'a> Span<'a> {
    /// As far as the phone can tell from the day on which its page was drawn: what the studio would still take is never
    /// refused, and what is over meanwhile, or too far, the studio says itself.
    pub const fn on_the_phone(drawn: &'a str) -> Self {
        Self {
            first: drawn,
            last: "9999-12-31",
        }
    }
}

/// The last day that a wish may name.
pub fn farthest(today: NaiveDate) -> NaiveDate {
    today
        .checked_add_signed(TimeDelta::days(FARTHEST_DAYS))
        .unwrap_or(today)
}

impl Wish {
    /// The tidied wish that a form holds: the fields of [`FIELDS`].
    ///
    /// # Errors
    /// What keeps it from being taken, by the form's own fields.
    pub fn from_form(form: &Filled, span: Span<'_>) -> Result<Self, Vec<Fault>> {
        let mut times = Vec::new();
        let mut rows = Vec::new();
        for (field, beside) in DATES.into_iter().zip(TIMES) {
            let (date, time) = (form.value(field).trim(), form.value(beside).trim());
            if !(date.is_empty() && time.is_empty()) {
                rows.push(field);
                times.push(Preferred {
                    date: date.to_owned(),
                    // Some browsers send seconds.
                    time: time.get(..5).unwrap_or(time).to_owned(),
                });
            }
        }
        let wish = Self {
            times,
            words: form.value("wish_words").trim().to_owned(),
            reach: form.value("wish_reach").trim().to_owned(),
        };
        let faults = wish.faults_in(&rows, span);
        if faults.is_empty() {
            Ok(wish.tidied())
        } else {
            Err(faults)
        }
    }

    /// The wish as the record keeps it: each time once, texts without surrounding blanks.
    pub fn tidied(mut self) -> Self {
        let mut times: Vec<Preferred> = Vec::new();
        for time in self.times {
            if !times.contains(&time) {
                times.push(time);
            }
        }
        self.times = times;
        self.words = self.words.trim().to_owned();
        self.reach = self.reach.trim().to_owned();
        self
    }

    /// What keeps this wish from being taken; empty when nothing does.
    pub fn faults(&self, span: Span<'_>) -> Vec<Fault> {
        self.faults_in(&DATES, span)
    }

    /// As [`Wish::faults`], where each time stands in the row of the form that begins with the field given.
    fn faults_in(&self, rows: &[&'static str], span: Span<'_>) -> Vec<Fault> {
        let mut faults = Vec::new();
        let mut blame = |field, key| faults.push(Fault { field, key });
        if self.times.is_empty() {
            blame("date_1", "fault.wish_none");
        }
        if self.times.len() > MOST {
            blame("date_1", "fault.wish_many");
        }
        for (field, time) in rows.iter().zip(&self.times) {
            let key = time.fault(span);
            if !key.is_empty() {
                blame(field, key);
            }
        }
        if self.words.chars().count() > WORDS_MAX {
            blame("wish_words", "fault.words_long");
        }
        if self.reach.chars().count() > REACH_MAX {
            blame("wish_reach", "fault.reach_long");
        }
        faults
    }
}

impl Preferred {
    /// The day; `None` of what is no wish without faults.
    pub fn date(&self) -> Option<NaiveDate> {
        read_date(&self.date)
    }

    /// The time, if one was given.
    pub fn time(&self) -> Option<NaiveTime> {
        read_time(&self.time)
    }

    /// The key of what is wrong; empty when nothing is.
    fn fault(&self, span: Span<'_>) -> &'static str {
        if self.date.is_empty() {
            "fault.wish_day"
        } else if !is_date(&self.date) {
            "fault.date"
        } else if self.date.as_str() < span.first {
            // Of days so written the earlier is also the earlier text.
            "fault.wish_past"
        } else if self.date.as_str() > span.last {
            "fault.wish_far"
        } else if !(self.time.is_empty() || is_time(&self.time)) {
            "fault.time"
        } else {
            ""
        }
    }
}

/// A day as a form sends it.
pub fn read_date(text: &str) -> Option<NaiveDate> {
    is_date(text).then(|| text.parse().ok()).flatten()
}

/// A time as a form sends it, also with seconds, which are left off.
pub fn read_time(text: &str) -> Option<NaiveTime> {
    let minutes = text.get(..5).filter(|minutes| is_time(minutes))?;
    minutes.parse().ok()
}

/// HTML Living Standard, "valid date string": YYYY-MM-DD, of the Gregorian calendar.
fn is_date(text: &str) -> bool {
    let numbers = (number(text, 0, 4), number(text, 5, 7), number(text, 8, 10));
    let (Some(year), Some(month), Some(day)) = numbers else {
        return false;
    };
    let leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    let days = match month {
        2 if leap => 29,
        2 => 28,
        4 | 6 | 9 | 11 => 30,
        1..=12 => 31,
        _ => 0,
    };
    let bytes = text.as_bytes();
    bytes.len() == 10 && bytes[4] == b'-' && bytes[7] == b'-' && (1..=days).contains(&day)
}

/// HTML Living Standard, "valid time string": HH:MM.
fn is_time(text: &str) -> bool {
    let numbers = (number(text, 0, 2), number(text, 3, 5));
    let bytes = text.as_bytes();
    matches!(numbers, (Some(..24), Some(..60))) && bytes.len() == 5 && bytes[2] == b':'
}

/// The number that digits alone write from one place of a text to another.
fn number(text: &str, from: usize, to: usize) -> Option<u32> {
    let mut number = 0;
    for digit in text.as_bytes().get(from..to)? {
        if !digit.is_ascii_digit() {
            return None;
        }
        number = number * 10 + u32::from(digit - b'0');
    }
    Some(number)
}

#[cfg(test)]
mod tests;
