//! How a date and a time at the studio are written, in the words of one language.
//!
//! The language file gives `date.weekday.1` (Monday) to `.7` and `date.month.1` (January) to `.12` as full forms
//! (numbers as in ISO 8601), and one pattern for each way of writing below, with the placeholders `{weekday}`,
//! `{day}`, `{month}`, `{year}`, `{hour}` and `{minute}`. `date.first_day` is how the first day of a month is written.

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

/// The key of how the first day of a month is written: "1er" in French.
pub const FIRST_DAY: &str = "date.first_day";

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

/// A moment with its whole date, for what is kept longer than a year.
pub fn in_full(words: &Words, at: NaiveDateTime) -> String {
    write(words, "date.date_time_year", at)
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
    let day = match at.day() {
        1 => words.get(FIRST_DAY).unwrap_or("1").to_owned(),
        day => day.to_string(),
    };
    words.fill(
        pattern,
        &[
            ("weekday", words.say(&weekday)),
            ("day", &day),
            ("month", words.say(&month)),
            ("year", &at.year().to_string()),
            ("hour", &format!("{:02}", at.hour())),
            ("minute", &format!("{:02}", at.minute())),
        ],
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Words that show which pattern and which form was taken.
    fn words() -> Words {
        let mut words = Words::default();
        let mut put = |key: &str, text: &str| words.insert(key.to_owned(), text.to_owned());
        put("date.day_time", "{weekday} {hour}:{minute}");
        put("date.date_time", "{weekday} {day} {month} {hour}:{minute}");
        put(
            "date.date_time_year",
            "{weekday} {day} {month} {year} {hour}:{minute}",
        );
        put("date.date", "{weekday} {day} {month}");
        put("date.date_year", "{weekday} {day} {month} {year}");
        put("date.weekday.1", "Monday");
        put("date.weekday.4", "Thursday");
        put("date.weekday.7", "Sunday");
        put("date.month.1", "January");
        put("date.month.12", "December");
        words
    }

    fn on(year: i32, month: u32, day: u32) -> NaiveDate {
        NaiveDate::from_ymd_opt(year, month, day).unwrap()
    }

    // Weekdays from the calendar: 3 December 2026 is a Thursday, 28 December 2026 a Monday.

    #[test]
    fn within_a_week_the_weekday_is_enough() {
        let at = on(2026, 12, 3).and_hms_opt(9, 5, 0).unwrap();
        assert_eq!(moment(&words(), at, on(2026, 12, 3)), "Thursday 09:05");
        assert_eq!(moment(&words(), at, on(2026, 11, 27)), "Thursday 09:05");
        assert_eq!(moment(&words(), at, on(2026, 12, 9)), "Thursday 09:05");
    }

    #[test]
    fn from_a_week_on_the_same_weekday_needs_its_date() {
        let at = on(2026, 12, 3).and_hms_opt(14, 30, 0).unwrap();
        assert_eq!(
            moment(&words(), at, on(2026, 11, 26)),
            "Thursday 3 December 14:30"
        );
        assert_eq!(
            moment(&words(), at, on(2026, 12, 10)),
            "Thursday 3 December 14:30"
        );
    }

    #[test]
    fn the_first_day_of_a_month_may_be_written_in_its_own_way() {
        let mut words = words();
        let first = on(2027, 1, 1);
        assert_eq!(date(&words, first, first), "date.weekday.5 1 January");
        words.insert(FIRST_DAY.to_owned(), "1st".to_owned());
        assert_eq!(date(&words, first, first), "date.weekday.5 1st January");
        let last = on(2026, 12, 31);
        assert_eq!(date(&words, last, last), "Thursday 31 December");
    }

    #[test]
    fn far_away_the_year_is_said() {
        let at = on(2026, 12, 3).and_hms_opt(14, 30, 0).unwrap();
        assert_eq!(
            moment(&words(), at, on(2028, 1, 1)),
            "Thursday 3 December 2026 14:30"
        );
        assert_eq!(
            date(&words(), on(2026, 12, 28), on(2026, 11, 2)),
            "Monday 28 December"
        );
        // A new year alone needs no saying.
        assert_eq!(
            date(&words(), on(2027, 1, 3), on(2026, 11, 2)),
            "Sunday 3 January"
        );
        assert_eq!(
            date(&words(), on(2026, 12, 28), on(2026, 1, 2)),
            "Monday 28 December 2026"
        );
    }
}
