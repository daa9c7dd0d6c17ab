//! Lengths of time in words.

use chrono::TimeDelta;
use shared_types::words::Words;

/// "4 weeks", or "30 days" where that is no whole number of weeks.
pub fn weeks_or_days(words: &Words, days: u16) -> String {
    match days % 7 {
        0 => words.count("rebook.weeks", i64::from(days / 7)),
        _ => words.count("rebook.days", i64::from(days)),
    }
}

/// "5 hours": whole minutes, hours or days, rounded down.
pub fn span(words: &Words, time: TimeDelta) -> String {
    let (unit, n) = rounded_down(time);
    words.count(&format!("length.{unit}"), n)
}

/// `minutes`, `hours` or `days`, and how many; never less than nought.
pub fn rounded_down(time: TimeDelta) -> (&'static str, i64) {
    let time = time.max(TimeDelta::zero());
    if time < TimeDelta::hours(2) {
        ("minutes", time.num_minutes())
    } else if time < TimeDelta::days(2) {
        ("hours", time.num_hours())
    } else {
        ("days", time.num_days())
    }
}

/// "24 hours", or "3 days" where that is a whole number of them.
pub fn hours(words: &Words, hours: u32) -> String {
    match hours % 24 {
        0 if hours > 24 => words.count("length.days", i64::from(hours / 24)),
        _ => words.count("length.hours", i64::from(hours)),
    }
}

/// "8 weeks": the nearest.
pub fn about_weeks(words: &Words, days: u16) -> String {
    words.count("rebook.weeks", (i64::from(days) + 3) / 7)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn whole_weeks_and_the_nearest() {
        let mut words = Words::none();
        for unit in ["weeks", "days"] {
            for form in ["one", "other"] {
                words.insert(
                    format!("rebook.{unit}.{form}"),
                    format!("{{n}} {unit} {form}"),
                );
            }
        }
        assert_eq!(weeks_or_days(&words, 7), "1 weeks one");
        assert_eq!(weeks_or_days(&words, 28), "4 weeks other");
        assert_eq!(weeks_or_days(&words, 30), "30 days other");
        let about = |days| about_weeks(&words, days);
        assert_eq!(
            [about(52), about(53), about(59), about(60)],
            ["7", "8", "8", "9"].map(|n| format!("{n} weeks other"))
        );
    }
}
