//! When a visit ended: a date and a time on the studio's wall made into an instant.

use chrono::{DateTime, LocalResult, NaiveDate, NaiveTime, TimeDelta, TimeZone, Utc};
use chrono_tz::Tz;
use shared_types::page::form::Filled;

use super::super::check::Check;

/// Clocks differ, and a visit is recorded while it ends.
const AHEAD: TimeDelta = TimeDelta::minutes(10);
/// A visit that lies further back is more likely a wrong date.
const BACK_DAYS: i64 = 60;

/// The end of the visit from the fields `date` and `time`; what is wrong with them is noted.
pub fn read_end(
    check: &mut Check<'_>,
    form: &Filled,
    zone: Tz,
    now: DateTime<Utc>,
) -> Option<DateTime<Utc>> {
    let date = NaiveDate::parse_from_str(form.value("date").trim(), "%Y-%m-%d");
    let time = form.value("time").trim();
    let time = NaiveTime::parse_from_str(time, "%H:%M")
        .or_else(|_| NaiveTime::parse_from_str(time, "%H:%M:%S"));
    if date.is_err() {
        check.fault("date", "fault.date", &[]);
    }
    if time.is_err() {
        check.fault("time", "fault.time", &[]);
    }
    let Some(end) = instant(zone, date.ok()?, time.ok()?, now) else {
        check.fault("time", "fault.clock_gap", &[]);
        return None;
    };
    if end > now + AHEAD {
        check.fault("time", "fault.future", &[]);
    }
    if end < now - TimeDelta::days(BACK_DAYS) {
        check.fault("date", "fault.too_old", &[("days", &BACK_DAYS.to_string())]);
    }
    Some(end)
}

/// The instant of a time on the studio's wall; `None` when the clocks skipped it. Of the two instants that a time has
/// when the clocks go back it is the later, so that no caution ends too soon; unless that one has not come yet.
fn instant(
    zone: Tz,
    date: NaiveDate,
    time: NaiveTime,
    now: DateTime<Utc>,
) -> Option<DateTime<Utc>> {
    match zone.from_local_datetime(&date.and_time(time)) {
        LocalResult::Single(at) => Some(at.to_utc()),
        LocalResult::Ambiguous(_, later) if later.to_utc() <= now + AHEAD => Some(later.to_utc()),
        LocalResult::Ambiguous(earlier, _) => Some(earlier.to_utc()),
        LocalResult::None => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(zone: Tz, local: &str, now: &str) -> Option<String> {
        let (date, time) = local.split_once(' ').unwrap();
        instant(
            zone,
            date.parse().unwrap(),
            time.parse().unwrap(),
            now.parse().unwrap(),
        )
        .map(|at| at.to_rfc3339())
    }

    /// The clock changes of Europe/London in 2026: forward on 29 March 01:00 UTC, back on 25 October 01:00 UTC
    /// (Directive 2000/84/EC: last Sundays of March and October; the United Kingdom keeps the same days).
    #[test]
    fn times_around_a_clock_change() {
        let london = chrono_tz::Europe::London;
        assert_eq!(
            at(london, "2026-03-29 01:30:00", "2026-03-29T12:00:00Z"),
            None
        );
        assert_eq!(
            at(london, "2026-10-25 01:30:00", "2026-10-25T12:00:00Z").as_deref(),
            Some("2026-10-25T01:30:00+00:00"),
            "the later of the two"
        );
        assert_eq!(
            at(london, "2026-10-25 01:30:00", "2026-10-25T00:35:00Z").as_deref(),
            Some("2026-10-25T00:30:00+00:00"),
            "the earlier, while the later has not come"
        );
        assert_eq!(
            at(london, "2026-07-01 14:30:00", "2026-07-01T14:00:00Z").as_deref(),
            Some("2026-07-01T13:30:00+00:00")
        );
    }
}
