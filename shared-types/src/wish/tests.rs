use proptest::prelude::*;

use super::*;

fn on(text: &str) -> NaiveDate {
    text.parse().unwrap()
}

fn at(date: &str, time: &str) -> Preferred {
    Preferred {
        date: date.to_owned(),
        time: time.to_owned(),
    }
}

const TODAY: &str = "2026-11-26";
const SPAN: Span<'static> = Span {
    first: TODAY,
    last: "2027-11-27",
};

fn form(fields: &[(&str, &str)]) -> Filled {
    let mut form = Filled::default();
    for (name, value) in fields {
        form.put(name, *value);
    }
    form
}

fn read(fields: &[(&str, &str)]) -> Result<Wish, Vec<(&'static str, &'static str)>> {
    Wish::from_form(&form(fields), SPAN).map_err(|faults| {
        faults
            .iter()
            .map(|fault| (fault.field, fault.key))
            .collect()
    })
}

#[test]
fn a_form_becomes_a_wish_in_the_order_of_choice() {
    let wish = read(&[
        ("date_1", "2026-12-03"),
        ("time_1", "14:30"),
        ("date_2", "2026-12-01"),
        ("time_2", ""),
        ("date_3", "2026-12-03"),
        ("time_3", "14:30:00"),
        ("wish_words", "  Afternoons. \n"),
        ("wish_reach", " 07700 900519 "),
    ]);
    assert_eq!(
        wish,
        Ok(Wish {
            times: vec![at("2026-12-03", "14:30"), at("2026-12-01", "")],
            words: "Afternoons.".to_owned(),
            reach: "07700 900519".to_owned(),
        }),
        "what was said twice counts once"
    );
}

#[test]
fn rows_may_be_left_empty_anywhere() {
    let wish = read(&[("date_1", ""), ("date_2", " "), ("date_3", "2026-11-26")]).unwrap();
    assert_eq!(wish.times, [at(TODAY, "")], "today is not in the past");
}

#[test]
fn what_cannot_be_taken_is_blamed_on_its_own_row() {
    for (fields, blamed) in [
        (&[][..], &[("date_1", "fault.wish_none")][..]),
        (
            &[("wish_words", "Soon, please.")],
            &[("date_1", "fault.wish_none")],
        ),
        (
            &[("date_1", "2026-12-03"), ("date_3", "2026-11-25")],
            &[("date_3", "fault.wish_past")],
        ),
        (&[("date_2", "2027-11-28")], &[("date_2", "fault.wish_far")]),
        (&[("date_2", "3/12/2026")], &[("date_2", "fault.date")]),
        (&[("date_2", "2026-02-30")], &[("date_2", "fault.date")]),
        (&[("date_2", "20226-12-03")], &[("date_2", "fault.date")]),
        (&[("time_2", "14:30")], &[("date_2", "fault.wish_day")]),
        (
            &[("date_1", "2026-12-03"), ("time_1", "half past two")],
            &[("date_1", "fault.time")],
        ),
        (
            &[("date_1", "2026-12-03"), ("time_1", "24:00")],
            &[("date_1", "fault.time")],
        ),
    ] {
        assert_eq!(read(fields), Err(blamed.to_vec()), "{fields:?}");
    }
    assert!(
        read(&[("date_1", "2027-11-27")]).is_ok(),
        "the last day that may be named"
    );
}

#[test]
fn texts_and_times_have_limits() {
    let wish = |times, words: usize, reach: usize| Wish {
        times,
        words: "\u{1F9F4}".repeat(words),
        reach: "x".repeat(reach),
    };
    let days = |n: usize| -> Vec<Preferred> {
        let first = on(TODAY);
        (0..n)
            .map(|day| at(&(first + TimeDelta::days(day as i64)).to_string(), ""))
            .collect()
    };
    let faults = |wish: Wish| -> Vec<_> {
        wish.faults(SPAN)
            .iter()
            .map(|fault| (fault.field, fault.key))
            .collect()
    };
    assert_eq!(faults(wish(days(3), WORDS_MAX, REACH_MAX)), []);
    assert_eq!(
        faults(wish(days(4), WORDS_MAX + 1, REACH_MAX + 1)),
        [
            ("date_1", "fault.wish_many"),
            ("wish_words", "fault.words_long"),
            ("wish_reach", "fault.reach_long"),
        ]
    );
}

/// HTML Living Standard, "valid date string" and "valid time string": what inputs of type date and time send.
#[test]
fn days_and_times_are_read_as_browsers_send_them() {
    assert_eq!(
        read_date("2026-12-03"),
        NaiveDate::from_ymd_opt(2026, 12, 3)
    );
    assert_eq!(read_time("09:05"), NaiveTime::from_hms_opt(9, 5, 0));
    assert_eq!(read_time("09:05:30"), NaiveTime::from_hms_opt(9, 5, 0));
    for none in [
        "2026-12-03-",
        "2026/12/03",
        "2026-1-03",
        "+026-12-03",
        "",
        "2026-12-0\u{661}",
    ] {
        assert_eq!(read_date(none), None, "{none}");
    }
    for none in ["9", "9:05", "09.05", "24:00", "09:60", "0\u{20ac}:05"] {
        assert_eq!(read_time(none), None, "{none}");
    }
    assert_eq!(farthest(on(TODAY)), on(SPAN.last));
}

#[test]
fn a_wish_reads_as_it_was_written() {
    let wish = Wish {
        times: vec![at("2026-12-03", "09:05"), at("2027-01-10", "")],
        words: "After work.".to_owned(),
        reach: String::new(),
    };
    let json = serde_json::to_string(&wish).unwrap();
    let times = r#""times":[{"date":"2026-12-03","time":"09:05"},{"date":"2027-01-10","time":""}]"#;
    assert!(json.contains(times), "{json}");
    assert_eq!(serde_json::from_str::<Wish>(&json).unwrap(), wish);
}

proptest! {
    /// Our check of days agrees with the calendar library on every day that three numbers can write.
    #[test]
    fn a_day_is_one_that_the_calendar_library_knows(year in 0i32..9999, month in 0u32..15, day in 0u32..34) {
        let text = format!("{year:04}-{month:02}-{day:02}");
        let known = NaiveDate::from_ymd_opt(year, month, day);
        prop_assert_eq!(is_date(&text), known.is_some());
        prop_assert_eq!(read_date(&text), known);
    }

    /// A wish that was taken from a form has one to three times, none twice, all from today on; and tidying it again,
    /// or judging it again on the same day, changes nothing.
    #[test]
    fn a_wish_that_is_taken_can_be_kept(
        rows in prop::collection::vec((-3i64..400, prop::option::of(0u32..24)), 0..=3),
        words in ".{0,40}",
    ) {
        let today = on(TODAY);
        let mut form = Filled::default();
        for ((days, hour), (date, time)) in rows.iter().zip(DATES.into_iter().zip(TIMES)) {
            form.put(date, (today + TimeDelta::days(*days)).to_string());
            form.put(time, hour.map_or_else(String::new, |hour| format!("{hour:02}:00")));
        }
        form.put("wish_words", words);
        let fit = !rows.is_empty() && rows.iter().all(|(days, _)| (0..=FARTHEST_DAYS).contains(days));
        match Wish::from_form(&form, SPAN) {
            Ok(wish) => {
                prop_assert!(fit);
                prop_assert!((1..=MOST).contains(&wish.times.len()));
                prop_assert!(wish.times.iter().all(|time| time.date().unwrap() >= today));
                prop_assert_eq!(wish.faults(SPAN), vec![]);
                prop_assert_eq!(wish.clone().tidied(), wish);
            }
            Err(faults) => {
                prop_assert!(!fit);
                prop_assert!(!faults.is_empty());
            }
        }
    }
}
