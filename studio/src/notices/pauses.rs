//! How long to wait before a notice that did not go out is tried again.

use std::time::Duration;

use chrono::{DateTime, TimeDelta, Utc};

/// After the first attempt; each further pause is twice the one before.
pub const FIRST: Duration = Duration::from_secs(15);
/// The longest pause is so many times the first: half an hour, which RFC 5321 section 4.5.4.1 names for mail that keeps
/// failing. Sooner at first, because most stops are short and somebody waits.
const LONGEST: u32 = 120;
/// When it is given up: RFC 5321 section 4.5.4.1, "at least 4-5 days".
const GIVE_UP: TimeDelta = TimeDelta::days(5);

/// Growing pauses.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Pauses {
    pub first: Duration,
}

impl Pauses {
    /// After so many attempts that failed, 1 or more.
    pub fn after(self, attempts: u32) -> Duration {
        let times = 1_u32
            .checked_shl(attempts.saturating_sub(1))
            .map_or(LONGEST, |times| times.min(LONGEST));
        self.first * times
    }

    /// When to try again what failed at `now` for the `attempts`th time; `None` when that is of no use any more.
    pub fn next(
        self,
        made_at: DateTime<Utc>,
        attempts: u32,
        now: DateTime<Utc>,
    ) -> Option<DateTime<Utc>> {
        let pause = TimeDelta::from_std(self.after(attempts)).ok()?;
        let next = now + pause;
        (next - made_at < GIVE_UP).then_some(next)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pauses_grow_and_then_stay() {
        let pauses = Pauses { first: FIRST };
        let seconds: Vec<u64> = (1..=10).map(|n| pauses.after(n).as_secs()).collect();
        assert_eq!(seconds, [15, 30, 60, 120, 240, 480, 960, 1800, 1800, 1800]);
        assert_eq!(pauses.after(4_000_000_000).as_secs(), 1800);
    }

    #[test]
    fn it_is_given_up_after_five_days() {
        let pauses = Pauses { first: FIRST };
        let made = DateTime::UNIX_EPOCH;
        let (mut now, mut attempts) = (made, 1);
        while let Some(next) = pauses.next(made, attempts, now) {
            assert!(next > now);
            (now, attempts) = (next, attempts + 1);
        }
        let left = TimeDelta::days(5) - (now - made);
        assert!(
            left > TimeDelta::zero() && left <= TimeDelta::minutes(30),
            "{left}"
        );
    }
}
