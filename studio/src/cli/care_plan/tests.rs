use serde_json::{Value, json};

use super::*;

fn ask(question: &Value) -> Result<Value, String> {
    let answer = care_plan(&question.to_string(), &Content::built_in().unwrap());
    answer
        .map(|json| serde_json::from_str(&json).unwrap())
        .map_err(|error| error.to_string())
}

/// The design's question.
fn example() -> Value {
    json!({
        "finished_at": "2026-10-24T18:30:00+01:00",
        "time_zone": "Europe/London",
        "treatments": ["brow_wax", "brow_tint"],
        "skin": {"topical_retinoid": true, "sensitive": false, "first_time": false},
        "language": "en",
    })
}

/// The design's question with one field in another way.
fn example_with(field: &str, value: Value) -> Value {
    let mut question = example();
    question[field] = value;
    question
}

fn refused(field: &str, value: Value) -> String {
    ask(&example_with(field, value)).unwrap_err()
}

#[test]
fn the_example_of_the_design() {
    let answer = ask(&example()).unwrap();
    let cautions = answer["cautions"].as_array().unwrap();
    let heat = cautions.iter().find(|one| one["id"] == "heat").unwrap();
    assert_eq!(heat["from"], "2026-10-24T17:30:00Z");
    assert_eq!(heat["until"], "2026-10-26T17:30:00Z");
    // The clocks go back on 25 October 2026: 48 elapsed hours end at 17:30, not at 18:30.
    assert_eq!(heat["until_local"], "2026-10-26T17:30:00+00:00");
    assert_eq!(heat["hours"], 48);
    assert_eq!(heat["because"], json!(["brow_wax"]));
    assert!(!heat["source"].as_array().unwrap().is_empty());
    let wax = &answer["next_visit"]["windows"][0];
    assert_eq!(
        (&wax["treatment"], &wax["earliest"]),
        (&json!("brow_wax"), &json!("2026-11-21"))
    );
}

#[test]
fn the_answer_has_the_fields_of_the_design_and_no_others() {
    let answer = ask(&example()).unwrap();
    let names = |value: &Value| {
        value
            .as_object()
            .unwrap()
            .keys()
            .cloned()
            .collect::<Vec<_>>()
    };
    assert_eq!(
        names(&answer),
        ["before_next_visit", "cautions", "next_visit"]
    );
    let caution = [
        "because",
        "from",
        "hours",
        "id",
        "source",
        "until",
        "until_local",
    ];
    assert_eq!(names(&answer["cautions"][0]), caution);
    // The design's `suggested` and `windows`, and what came later.
    assert_eq!(
        names(&answer["next_visit"]),
        [
            "alternative",
            "no_open_day",
            "suggested",
            "waits",
            "windows"
        ]
    );
    assert_eq!(
        names(&answer["next_visit"]["windows"][0]),
        ["best", "earliest", "latest", "reason", "treatment"]
    );
    assert_eq!(names(&answer["next_visit"]["suggested"]), ["from", "until"]);
}

#[test]
fn skin_and_language_may_be_left_out() {
    let short = json!({
        "finished_at": "2026-10-24T18:30:00+01:00", "time_zone": "Europe/London", "treatments": ["brow_tint"],
    });
    assert_eq!(
        ask(&short).unwrap()["cautions"].as_array().unwrap().len(),
        4
    );
}

#[test]
fn regrowth_counts_from_the_date_at_the_studio() {
    // 23:30 UTC on the 24th is already the 25th in Auckland.
    let mut question = example_with("finished_at", json!("2026-10-24T23:30:00Z"));
    question["time_zone"] = json!("Pacific/Auckland");
    assert_eq!(
        ask(&question).unwrap()["next_visit"]["windows"][0]["earliest"],
        "2026-11-22"
    );
}

#[test]
fn unknown_fields_are_refused_by_name() {
    let told = refused("colour", json!("brown"));
    assert!(
        told.starts_with("colour: unknown field `colour`, expected one of `finished_at`"),
        "{told}"
    );
    let told = refused("skin", json!({"dry": true}));
    assert!(
        told.starts_with("skin.dry: unknown field `dry`, expected one of `topical_retinoid`"),
        "{told}"
    );
}

#[test]
fn a_missing_field_is_named() {
    let mut question = example();
    question.as_object_mut().unwrap().remove("time_zone");
    let told = ask(&question).unwrap_err();
    assert!(told.contains("missing field `time_zone`"), "{told}");
}

#[test]
fn a_bad_value_names_its_field_what_was_given_and_what_is_allowed() {
    assert_eq!(
        refused("finished_at", json!("yesterday")),
        "finished_at: given `yesterday`; allowed is a date and time with its offset (RFC 3339), such as \
         2026-10-24T18:30:00+01:00"
    );
    // Without an offset nobody could say which instant is meant.
    assert!(
        refused("finished_at", json!("2026-10-24T18:30:00"))
            .starts_with("finished_at: given `2026-10-24T18:30:00`")
    );
    assert!(
        refused("finished_at", json!("2026-02-30T18:30:00Z")).starts_with("finished_at: given")
    );
    assert_eq!(
        refused("time_zone", json!("Europe/Atlantis")),
        "time_zone: given `Europe/Atlantis`; allowed is the IANA name of a time zone, such as Europe/London"
    );
    let all = Treatment::ALL.iter().map(|one| one.term());
    let all = all.collect::<Vec<_>>().join(", ");
    assert_eq!(
        refused("treatments", json!(["brow_wax", "brow_waks"])),
        format!("treatments[1]: given `brow_waks`; allowed is one of {all}")
    );
    assert_eq!(
        refused("treatments", json!([])),
        format!("treatments: given `[]`; allowed is at least one of {all}")
    );
    assert_eq!(
        refused("language", json!("tlh")),
        "language: given `tlh`; allowed is one of en"
    );
}

#[test]
fn a_value_of_the_wrong_shape_is_told_by_its_field() {
    let told = refused("skin", json!({"sensitive": "yes"}));
    assert!(
        told.starts_with("skin.sensitive: invalid type: string \"yes\", expected a boolean"),
        "{told}"
    );
    let told = refused("treatments", json!("brow_wax"));
    assert!(
        told.starts_with("treatments: invalid type: string \"brow_wax\", expected a sequence"),
        "{told}"
    );
    let told = refused("treatments", json!(["brow_wax", 7]));
    assert!(
        told.starts_with("treatments[1]: invalid type: integer `7`, expected a string"),
        "{told}"
    );
}

#[test]
fn what_is_no_json_is_said_to_be_none() {
    let content = Content::built_in().unwrap();
    for input in ["", "brow_wax", "{\"finished_at\":", "{} {}"] {
        assert!(care_plan(input, &content).is_err(), "{input}");
    }
    let told = care_plan("brow_wax", &content).unwrap_err().to_string();
    assert!(
        told.starts_with("the input cannot be read as JSON: "),
        "{told}"
    );
    let two = format!("{} {}", example(), example());
    assert!(
        care_plan(&two, &content)
            .unwrap_err()
            .to_string()
            .contains("trailing characters")
    );
}

#[test]
fn a_studios_own_times_stand_beside_what_they_replace() {
    let practice = json!({"intervals": {"brow_wax": {"best_days": 35, "latest_days": 49}}, "closed": ["sunday", "monday"]});
    let answer = ask(&example_with("practice", practice)).unwrap();
    let wax = &answer["next_visit"]["windows"][0];
    assert_eq!(
        (&wax["best"], &wax["latest"], &wax["reason"]),
        (&json!("2026-11-28"), &json!("2026-12-12"), &json!("own"))
    );
    let usual = ask(&example()).unwrap()["next_visit"]["windows"][0].clone();
    for part in ["earliest", "best", "latest", "reason"] {
        assert_eq!(wax["usual"][part], usual[part], "{part}");
    }
    // 28 November 2026 is a Saturday (from the calendar); the tint's six weeks end on Saturday 5 December.
    assert_eq!(
        answer["next_visit"]["suggested"],
        json!({"from": "2026-11-28", "until": "2026-12-05"})
    );
    let closed = json!({"closed": ["saturday", "sunday"]});
    let moved = ask(&example_with("practice", closed)).unwrap();
    assert_eq!(
        moved["next_visit"]["suggested"],
        json!({"from": "2026-11-27", "until": "2026-12-04"})
    );
}

#[test]
fn a_practice_that_cannot_be_is_refused_by_its_field() {
    let told = |practice| refused("practice", practice);
    let wax = |days: Value| json!({"intervals": {"brow_wax": days}});
    assert_eq!(
        told(wax(json!({"best_days": 14}))),
        "practice.intervals.brow_wax.best_days: given `14`; allowed is 21 days or more, as the trade waits, or \
         `knowingly_sooner`: true beside it"
    );
    let meant = wax(json!({"best_days": 14, "knowingly_sooner": true}));
    assert!(ask(&example_with("practice", meant)).is_ok());
    assert_eq!(
        told(wax(json!({"best_days": 42, "latest_days": 35}))),
        "practice.intervals.brow_wax.latest_days: given `35`; allowed is days that rise from earliest over best to latest"
    );
    assert_eq!(
        told(wax(json!({"latest_days": 400}))),
        "practice.intervals.brow_wax.latest_days: given `400`; allowed is 1 to 366 days"
    );
    let all: Vec<&str> = shared_types::care_plan::Weekday::ALL
        .iter()
        .map(|day| day.term())
        .collect();
    assert_eq!(
        told(json!({"closed": all})),
        "practice.closed: given `every day`; allowed is at most six days of the week"
    );
    assert!(
        told(json!({"prefers": "profit"}))
            .starts_with("practice.prefers: unknown variant `profit`")
    );
    assert!(told(json!({"opening": 9})).starts_with("practice.opening: unknown field `opening`"));
}
