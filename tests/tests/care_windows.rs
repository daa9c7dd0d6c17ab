//! Care windows across midnight, month ends, the leap day and both clock changes, against `jiff`, a time-zone library
//! that shares no code with the one the studio uses and brings its own copy of the IANA time-zone database.
//!
//! A caution of n hours is n elapsed hours from the end of the visit, shown as wall-clock time at the studio.

#![cfg(test)]

use content::Content;
use jiff::{SignedDuration, ToSpan, ZonedDateTime};
use serde_json::{Value, json};
use studio::cli::care_plan::care_plan;

/// Ends of visits as a clock on the studio's wall showed them, with what is special about the days after.
const VISITS: &[(&str, &str)] = &[
    (
        "2026-06-10T18:30[Europe/London]",
        "an ordinary summer evening",
    ),
    (
        "2026-06-10T23:59:59[Europe/London]",
        "a second before midnight",
    ),
    (
        "2026-03-28T18:30[Europe/London]",
        "clocks go forward that night",
    ),
    (
        "2026-10-24T18:30[Europe/London]",
        "clocks go back that night",
    ),
    (
        "2026-10-25T01:30+01:00[Europe/London]",
        "the first 01:30 of a night that has two",
    ),
    (
        "2026-10-25T01:30+00:00[Europe/London]",
        "the second 01:30 of a night that has two",
    ),
    (
        "2026-03-07T17:00[America/New_York]",
        "clocks go forward that night",
    ),
    (
        "2026-10-31T17:00[America/New_York]",
        "clocks go back that night, month end",
    ),
    (
        "2026-04-04T16:15[Australia/Lord_Howe]",
        "clocks go back by half an hour",
    ),
    (
        "2026-10-03T16:15[Australia/Lord_Howe]",
        "clocks go forward by half an hour",
    ),
    (
        "2026-09-26T20:45[Pacific/Auckland]",
        "clocks go forward, far ahead of UTC",
    ),
    (
        "2026-04-04T20:45[Pacific/Auckland]",
        "clocks go back, far ahead of UTC",
    ),
    ("2028-02-28T12:00[Europe/London]", "the leap day follows"),
    ("2028-02-29T22:10[America/New_York]", "on the leap day"),
    (
        "2027-02-28T12:00[Asia/Kathmandu]",
        "no leap day, and three quarters of an hour",
    ),
    ("2026-12-31T23:30[Pacific/Auckland]", "the year ends"),
];

fn plan_of(finished: &ZonedDateTime, treatments: &[&str], content: &Content) -> Value {
    let question = json!({
        "finished_at": rfc3339(finished),
        "time_zone": finished.time_zone().iana_name().expect("the visits name their zones"),
        "treatments": treatments,
        "skin": {"topical_retinoid": true, "sensitive": false, "first_time": false},
    });
    let answer = care_plan(&question.to_string(), content)
        .unwrap_or_else(|error| panic!("{finished}: {error}"));
    serde_json::from_str(&answer).expect("the answer is JSON")
}

fn rfc3339(at: &ZonedDateTime) -> String {
    at.strftime("%Y-%m-%dT%H:%M:%S%:z").to_string()
}

fn cautions(plan: &Value) -> &[Value] {
    plan["cautions"].as_array().expect("cautions are a list")
}

#[test]
fn cautions_end_after_their_elapsed_hours_at_the_local_time_that_jiff_gives() {
    let content = Content::built_in().unwrap();
    for (visit, what) in VISITS {
        let finished: ZonedDateTime = visit.parse().unwrap();
        let plan = plan_of(&finished, &["brow_wax", "brow_tint"], &content);
        assert!(cautions(&plan).len() > 5, "{plan}");
        for caution in cautions(&plan) {
            let hours = caution["hours"].as_i64().unwrap();
            let end = finished.timestamp() + SignedDuration::from_hours(hours);
            let shown = rfc3339(&end.to_zoned_datetime(finished.time_zone().clone()));
            let case = format!("{visit} ({what}), {} for {hours} h", caution["id"]);
            assert_eq!(
                caution["from"],
                json!(finished.timestamp().to_string()),
                "{case}"
            );
            assert_eq!(caution["until"], json!(end.to_string()), "{case}");
            assert_eq!(caution["until_local"], json!(shown), "{case}");
        }
    }
}

/// 28 days to the earliest wax and the earliest tint, by the calendar of the studio.
#[test]
fn regrowth_counts_calendar_days_from_the_studios_date() {
    let content = Content::built_in().unwrap();
    for (visit, what) in VISITS {
        let finished: ZonedDateTime = visit.parse().unwrap();
        let plan = plan_of(&finished, &["brow_wax", "brow_tint"], &content);
        let earliest = finished.date().checked_add(28.days()).unwrap().to_string();
        for window in plan["next_visit"]["windows"].as_array().unwrap() {
            assert_eq!(window["earliest"], json!(earliest), "{visit} ({what})");
        }
    }
}

/// Worked by hand from the rules of the clock changes (from memory: Summer Time Order 2002, Energy Policy Act of 2005,
/// Lord Howe Island's half hour as the IANA time-zone database describes it): London 29 March and 25 October 2026, the
/// last Sundays; New York 8 March and 1 November 2026, the second Sunday and the first; Lord Howe Island 5 April and
/// 4 October 2026, the first Sundays.
#[test]
fn two_days_of_heat_by_hand() {
    let content = Content::built_in().unwrap();
    for (visit, until) in [
        (
            "2026-03-28T18:30[Europe/London]",
            "2026-03-30T19:30:00+01:00",
        ),
        (
            "2026-10-24T18:30[Europe/London]",
            "2026-10-26T17:30:00+00:00",
        ),
        (
            "2026-03-07T17:00[America/New_York]",
            "2026-03-09T18:00:00-04:00",
        ),
        (
            "2026-10-31T17:00[America/New_York]",
            "2026-11-02T16:00:00-05:00",
        ),
        (
            "2026-04-04T16:15[Australia/Lord_Howe]",
            "2026-04-06T15:45:00+10:30",
        ),
        (
            "2026-10-03T16:15[Australia/Lord_Howe]",
            "2026-10-05T16:45:00+11:00",
        ),
        (
            "2028-02-28T12:00[Europe/London]",
            "2028-03-01T12:00:00+00:00",
        ),
    ] {
        let plan = plan_of(&visit.parse().unwrap(), &["brow_wax"], &content);
        let heat = cautions(&plan)
            .iter()
            .find(|one| one["id"] == "heat")
            .unwrap();
        assert_eq!(
            (&heat["hours"], &heat["until_local"]),
            (&json!(48), &json!(until)),
            "{visit}"
        );
    }
}

/// Windows of one kind all begin at the end of the visit: done together they end with the longest of them.
#[test]
fn together_treatments_end_with_the_longest_of_them() {
    let content = Content::built_in().unwrap();
    let (visit, _) = VISITS[3];
    let finished: ZonedDateTime = visit.parse().unwrap();
    let all = ["brow_wax", "brow_tweeze", "brow_tint"];
    let alone = all.map(|one| plan_of(&finished, &[one], &content));
    for together in cautions(&plan_of(&finished, &all, &content)) {
        let of_kind = || {
            alone
                .iter()
                .flat_map(cautions)
                .filter(|one| one["id"] == together["id"])
        };
        let longest = of_kind()
            .map(|one| one["until"].as_str().unwrap())
            .max()
            .unwrap();
        assert_eq!(together["until"], json!(longest));
        assert_eq!(
            together["hours"].as_u64(),
            of_kind().map(|one| one["hours"].as_u64().unwrap()).max()
        );
        assert!(
            together["because"].as_array().unwrap().len() >= of_kind().count(),
            "{together}"
        );
    }
}
