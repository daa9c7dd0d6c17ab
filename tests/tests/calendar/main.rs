//! Calendar files, read back by a parser that shares no code with the library that wrote them (PyPI's icalendar), and
//! measured against RFC 5545; across both clock changes, with times worked out by `jiff`.

#![cfg(test)]

mod reader;
mod visit;

use jiff::{SignedDuration, civil};
use serde_json::json;

use reader::{read_back, unfolded};
use visit::Visited;

/// Ends of visits; the clocks change in the days after.
const VISITS: [&str; 5] = [
    "2026-03-28T18:30[Europe/London]",
    "2026-10-24T18:30[Europe/London]",
    "2026-10-25T01:30+01:00[Europe/London]",
    "2026-03-07T17:00[America/New_York]",
    "2026-10-31T17:00[America/New_York]",
];

#[test]
fn a_file_is_what_rfc_5545_asks_for() {
    for visit in VISITS {
        let file = Visited::at(visit).for_date("2026-12-12").file();
        // 3.1: lines end in CRLF, hold 75 octets at most, and are folded with one blank.
        assert!(file.ends_with("\r\n"));
        assert_eq!(file.matches('\n').count(), file.matches("\r\n").count());
        assert_eq!(file.matches('\r').count(), file.matches("\r\n").count());
        assert!(file.contains("\r\n "), "something long enough to fold");
        for line in file.split("\r\n") {
            assert!(line.len() <= 75, "{} octets: {line}", line.len());
        }
        let lines = unfolded(&file);
        let count = |wanted: &str| lines.iter().filter(|line| *line == wanted).count();
        // 3.4 and 3.6: one object, and something in it.
        assert_eq!(count("BEGIN:VCALENDAR"), 1);
        assert_eq!(lines.last().map(String::as_str), Some("END:VCALENDAR"));
        let events = count("BEGIN:VEVENT");
        assert!(events > 0 && count("END:VEVENT") == events);
        // 3.7.1 to 3.7.4: once each.
        for once in [
            "PRODID:",
            "VERSION:2.0",
            "CALSCALE:GREGORIAN",
            "METHOD:PUBLISH",
        ] {
            assert_eq!(
                lines.iter().filter(|line| line.starts_with(once)).count(),
                1,
                "{once}"
            );
        }
        // 3.8.7.2 and 3.3.5: stamps in UTC.
        let stamps = lines.iter().filter(|line| line.starts_with("DTSTAMP"));
        assert!(stamps.clone().count() >= events);
        for stamp in stamps {
            let value = stamp.strip_prefix("DTSTAMP:").expect("no parameters");
            assert!(value.len() == 16 && value.ends_with('Z'), "{stamp}");
        }
        // 3.6.5: a time zone is defined where one is named, and none is named.
        assert!(!file.contains("TZID") && !file.contains("VTIMEZONE"));
    }
}

#[test]
fn another_reader_understands_it_and_finds_no_fault() {
    for visit in VISITS {
        let visited = Visited::at(visit).for_date("2026-12-12");
        let read = read_back(&visited.file());
        assert_eq!(read["faults"], json!([]), "{visit}");
        assert_eq!(read["version"], "2.0");
        // RFC 5546 section 3.2.1: published, with an organizer and no attendee.
        assert_eq!(read["method"], "PUBLISH");
        for event in read["events"].as_array().unwrap() {
            assert_eq!(event["organizer"], "mailto:hello@pell-yard.example");
            // 3.3.11: commas, semicolons and backslashes come through; 3.2: quotation marks in a parameter do not.
            assert_eq!(
                event["organizer_name"],
                "Pell Yard; Brows, 'Lashes' \\ Café"
            );
            let said = event["description"].as_str().unwrap();
            assert!(said.starts_with("Pell Yard; Brows, \"Lashes\" \\ Café · 020 7946 0991"));
            assert_eq!(
                (&event["class"], &event["transparent"]),
                (&json!("PRIVATE"), &json!("TRANSPARENT"))
            );
            // 3.6.6: an alarm shows something, from the start of its entry.
            let alarms = event["alarms"].as_array().unwrap();
            assert_eq!(alarms.len(), 1, "{event}");
            assert_eq!(
                (&alarms[0]["action"], &alarms[0]["related"]),
                (&json!("DISPLAY"), &json!("START"))
            );
            assert_eq!(alarms[0]["description"], event["summary"]);
        }
    }
}

/// Cautions end after elapsed hours: 24, 48 and 72 for a wax and a tint (common practice, no source).
#[test]
fn cautions_end_at_the_instant_that_jiff_gives() {
    for visit in VISITS {
        let visited = Visited::at(visit);
        let read = read_back(&visited.file());
        let starts: Vec<_> = events(&read)
            .filter(|event| event["start"].as_str().unwrap().len() > 10)
            .map(|event| {
                (
                    event["start"].clone(),
                    event["end"].clone(),
                    event["alarms"][0]["seconds"].clone(),
                )
            })
            .collect();
        let expected: Vec<_> = [24, 48, 72]
            .map(|hours| {
                let end = visited.finished.timestamp() + SignedDuration::from_hours(hours);
                (json!(end.to_string()), json!(null), json!(0.0))
            })
            .to_vec();
        assert_eq!(starts, expected, "{visit}");
    }
}

/// By the clock on the wall, worked by hand: the night of 28 to 29 March 2026 is an hour short in London, that of 24 to
/// 25 October an hour long; the same in New York on 7 to 8 March and on 31 October to 1 November.
#[test]
fn two_days_later_by_hand() {
    for (visit, until) in [
        (VISITS[0], "2026-03-30T18:30:00Z"),
        (VISITS[1], "2026-10-26T17:30:00Z"),
        (VISITS[3], "2026-03-09T22:00:00Z"),
        (VISITS[4], "2026-11-02T21:00:00Z"),
    ] {
        let read = read_back(&Visited::at(visit).file());
        assert!(
            events(&read).any(|event| event["start"] == until),
            "{visit}: {read}"
        );
    }
}

/// Whole days are dates without a time, so that no clock change and no time zone of the phone's can move them.
#[test]
fn visits_and_preparations_are_whole_days_at_the_studio() {
    for visit in VISITS {
        let visited = Visited::at(visit);
        let read = read_back(&visited.file());
        let date = |days: i64| {
            visited
                .finished
                .date()
                .saturating_add(jiff::Span::new().days(days))
        };
        let days: Vec<(civil::Date, civil::Date)> = events(&read)
            .filter(|event| event["start"].as_str().unwrap().len() == 10)
            .map(|event| {
                let day = |key: &str| event[key].as_str().unwrap().parse().unwrap();
                (day("start"), day("end"))
            })
            .collect();
        let span = visited.plan().next_visit.suggested.unwrap();
        let (from, until) = (visited.day_of(span.from), visited.day_of(span.until));
        // 3.8.2.2: the end is not included. Then the retinoid 7 days before, the skin test 48 hours before at any
        // hour, no tanning for 24: see `shared-types`.
        let expected = [
            (from, until + 1),
            (from - 7, from - 6),
            (from - 3, from - 2),
            (from - 1, from),
        ];
        assert_eq!(
            days,
            expected.map(|(from, end)| (date(from), date(end))),
            "{visit}"
        );
    }
}

/// The file of a date: the visit two to three days before it takes the place of the suggested one.
#[test]
fn a_date_moves_the_visit_and_what_comes_before_it() {
    let visited = Visited::at("2026-10-24T18:30[Europe/London]").for_date("2026-12-05");
    let read = read_back(&visited.file());
    let days: Vec<_> = events(&read)
        .filter(|event| event["start"].as_str().unwrap().len() == 10)
        .map(|event| event["start"].as_str().unwrap())
        .collect();
    assert_eq!(
        days,
        ["2026-12-02", "2026-11-25", "2026-11-29", "2026-12-01"]
    );
}

#[test]
fn ids_stay_and_the_sequence_rises() {
    let visited = Visited::at(VISITS[1]);
    let first = read_back(&visited.file());
    let ids = |read: &serde_json::Value| -> Vec<String> {
        events(read)
            .map(|event| event["uid"].as_str().unwrap().to_owned())
            .collect()
    };
    assert_eq!(
        ids(&first),
        ids(&read_back(&visited.clone().a_minute_later().file()))
    );
    // 3.8.4.7: globally unique; and another visit has others.
    let mut all = ids(&first);
    all.extend(ids(&read_back(&Visited::at(VISITS[0]).file())));
    let count = all.len();
    all.sort();
    all.dedup();
    assert_eq!(all.len(), count);
    for id in &all {
        id.parse::<uuid::Uuid>()
            .expect("RFC 7986 section 5.3 recommends UUIDs");
    }
    // 3.8.7.4: a changed entry keeps its id and has a higher number.
    let changed = read_back(&visited.for_date("2026-12-05").file());
    assert_eq!(ids(&changed), ids(&first));
    let pairs = events(&first).zip(events(&changed));
    for (before, after) in pairs {
        assert!(after["sequence"].as_u64() > before["sequence"].as_u64());
    }
}

/// Whoever sees the calendar learns nothing of what was done, what is used, or what is wrong.
#[test]
fn nothing_in_it_is_anybody_elses_business() {
    let file = Visited::at(VISITS[1]).for_date("2026-12-05").file();
    let words = unfolded(&file).join("\n").to_lowercase();
    for private in [
        "wax", "tint", "retin", "skin", "tann", "sauna", "test", "patch", "/my/", "http",
    ] {
        assert!(!words.contains(private), "`{private}` in {words}");
    }
}

#[test]
fn what_is_over_is_left_out_and_an_empty_calendar_is_none() {
    let visited = Visited::at(VISITS[1]);
    let days_later = |days: i64| visited.clone().looked_at(&visited.finished, days);
    let all = events(&read_back(&visited.file())).count();
    let later = days_later(2).file();
    assert_eq!(
        events(&read_back(&later)).count(),
        all - 2,
        "those of 24 and 48 hours are over"
    );
    assert_eq!(days_later(100).try_file(), None);
}

fn events(read: &serde_json::Value) -> impl Iterator<Item = &serde_json::Value> {
    read["events"].as_array().expect("events").iter()
}
