use proptest::prelude::*;

use super::{
    super::{next_visit::WindowReason, practice::Weekday},
    *,
};
use crate::catalogue::caution::Grade;

/// Day 0 is 1 January 1970, a Thursday (from the calendar).
fn day(n: u64) -> NaiveDate {
    NaiveDate::default() + Days::new(n)
}

fn window(earliest: u64, best: u64, comfortable_until: u64, latest: u64) -> Window {
    Window {
        treatment: Treatment::BrowWax,
        earliest: day(earliest),
        best: day(best),
        comfortable_until: day(comfortable_until),
        latest: day(latest),
        reason: WindowReason::Interval,
        basis: Grade::CommonPractice,
        sources: Vec::new(),
        usual: None,
    }
}

/// A treatment at which nothing aims in particular.
fn due(earliest: u64, best: u64, comfortable_until: u64, latest: u64) -> Due {
    Due {
        window: window(earliest, best, comfortable_until, latest),
        target: DateSpan {
            from: day(best),
            until: day(comfortable_until),
        },
        leads: false,
    }
}

fn closed(days: &[Weekday]) -> Practice {
    Practice {
        closed: days.iter().copied().collect(),
        ..Practice::default()
    }
}

fn suggestion(dues: &[Due]) -> Option<(NaiveDate, NaiveDate)> {
    suggest(dues, &Practice::default()).map(|one| (one.span.from, one.span.until))
}

fn timings(dues: &[Due]) -> Vec<Timing> {
    let waits = suggest(dues, &Practice::default()).unwrap().waits;
    waits.iter().map(|wait| wait.timing).collect()
}

#[test]
fn without_windows_there_is_no_suggestion() {
    assert_eq!(suggestion(&[]), None);
}

#[test]
fn comfortable_times_that_overlap_are_shared() {
    let both = [due(28, 32, 43, 59), due(28, 35, 42, 42)];
    assert_eq!(suggestion(&both), Some((day(35), day(42))));
    assert_eq!(timings(&both), [Timing::CanWait]);
}

#[test]
fn otherwise_the_slowest_decides_and_the_first_latest_cuts() {
    let apart = [due(20, 25, 30, 40), due(30, 35, 50, 60)];
    assert_eq!(suggestion(&apart), Some((day(35), day(40))));
}

#[test]
fn a_treatment_that_is_ready_too_late_still_gets_its_best_day() {
    let far = [due(7, 10, 14, 21), due(40, 45, 50, 60)];
    assert_eq!(suggestion(&far), Some((day(45), day(45))));
    assert_eq!(timings(&far), [Timing::Over]);
}

#[test]
fn what_the_studio_aims_at_decides_and_waits_for_every_earliest_day() {
    let colour = Due {
        target: DateSpan {
            from: day(28),
            until: day(34),
        },
        leads: true,
        ..due(28, 34, 42, 42)
    };
    assert_eq!(
        suggestion(&[due(21, 40, 45, 59), colour.clone()]),
        Some((day(28), day(34)))
    );
    assert_eq!(
        timings(&[due(21, 40, 45, 59), colour.clone()]),
        [Timing::Early]
    );
    // The other may not be done before day 42: the aim has to give way.
    assert_eq!(
        suggestion(&[due(42, 49, 56, 56), colour]),
        Some((day(42), day(42)))
    );
}

/// Day 30 is a Saturday, day 31 a Sunday (from the calendar: 31 January and 1 February 1970).
#[test]
fn closed_days_at_the_ends_are_left_out() {
    let one = [due(24, 30, 38, 59)];
    let span = |practice| suggest(&one, &practice).map(|one| (one.span, one.no_open_day));
    let from_to = |from, until| {
        Some((
            DateSpan {
                from: day(from),
                until: day(until),
            },
            false,
        ))
    };
    // 30 to 38 is from a Saturday to a Sunday.
    assert_eq!(span(closed(&[Weekday::Saturday])), from_to(31, 38));
    assert_eq!(
        span(closed(&[
            Weekday::Saturday,
            Weekday::Sunday,
            Weekday::Monday
        ])),
        from_to(33, 36)
    );
}

#[test]
fn a_range_without_an_open_day_gives_the_next_one_if_it_is_in_time() {
    // Saturday and Sunday only, with days to spare.
    let spare = [due(24, 30, 31, 59)];
    let weekend = closed(&[Weekday::Saturday, Weekday::Sunday]);
    let found = suggest(&spare, &weekend).unwrap();
    assert_eq!(
        (found.span.from, found.span.until, found.no_open_day),
        (day(32), day(32), false)
    );
    // Without any to spare it is said.
    let none = [due(24, 30, 31, 31)];
    let found = suggest(&none, &weekend).unwrap();
    assert_eq!(
        (found.span.from, found.span.until, found.no_open_day),
        (day(30), day(31), true)
    );
}

fn any_due() -> impl Strategy<Value = Due> {
    let days = prop::array::uniform4(0u64..90);
    let target = (0u64..90, 0u64..90);
    (days, target, any::<bool>()).prop_map(|(mut days, (from, until), leads)| {
        days.sort_unstable();
        let [earliest, best, comfortable_until, latest] = days;
        let due = due(earliest, best, comfortable_until, latest);
        if !leads {
            return due;
        }
        let within = |n: u64| day(n.clamp(earliest, latest));
        let (from, until) = (within(from.min(until)), within(from.max(until)));
        Due {
            target: DateSpan { from, until },
            leads,
            ..due
        }
    })
}

proptest! {
    #[test]
    fn a_suggestion_keeps_every_promise(
        dues in prop::collection::vec(any_due(), 1..5),
        shut in prop::collection::btree_set(prop::sample::select(Weekday::ALL), 0..7),
    ) {
        let practice = Practice { closed: shut, ..Practice::default() };
        let everything_open = suggest(&dues, &Practice::default()).unwrap().span;
        let Suggestion { span, no_open_day, .. } = suggest(&dues, &practice).unwrap();
        prop_assert!(span.from <= span.until);
        for due in &dues {
            prop_assert!(span.from >= due.window.earliest, "before an earliest day");
        }
        let last = dues.iter().map(|due| due.window.latest).max().unwrap();
        prop_assert!(span.until <= last, "within what all windows cover together");
        let open_within = |one: DateSpan| one.from.iter_days().take_while(|day| *day <= one.until).any(|day| practice.is_open(day));
        if open_within(everything_open) {
            prop_assert!(!no_open_day && span.from >= everything_open.from && span.until <= everything_open.until);
        }
        if !no_open_day {
            prop_assert!(practice.is_open(span.from) && practice.is_open(span.until));
        } else {
            prop_assert_eq!(span, everything_open, "nothing to move to");
        }
    }
}
