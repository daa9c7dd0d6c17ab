use serde_json::{Value, json};

use super::*;
use crate::cli::asking::{self, names};

fn ask(question: &Value) -> Result<Value, String> {
    asking::ask(urgency, question)
}

fn refused(question: Value) -> String {
    ask(&question).unwrap_err()
}

#[test]
fn the_fields_of_the_design_and_what_comes_next() {
    let answer = ask(&json!({"hours_since_visit": 8, "eye_red": true, "eye_pain": 3})).unwrap();
    assert_eq!(
        names(&answer),
        ["advice", "next_question", "rinse_first", "rules", "urgency"]
    );
    assert_eq!(answer["urgency"], "same_day");
    assert_eq!(answer["rules"], json!(["S3", "T7"]));
    assert!(
        answer["advice"]
            .as_array()
            .unwrap()
            .contains(&json!("today"))
    );
    let next = &answer["next_question"];
    assert_eq!(names(next), ["answered", "fields", "id", "left"]);
    assert_eq!(next["id"], "product_in_eye");
}

#[test]
fn nothing_answered_is_never_ordinary() {
    let answer = ask(&json!({})).unwrap();
    assert_eq!(
        (&answer["urgency"], &answer["rules"]),
        (&json!("studio"), &json!(["T10"]))
    );
}

#[test]
fn yes_and_no_in_words_or_as_json_has_them() {
    let words = ask(&json!({"product_in_eye": "yes", "eye_red": "no", "airway": "not_sure"}));
    let own = ask(
        &json!({"product_in_eye": true, "eye_red": false, "airway": "not_sure", "fever": null}),
    );
    assert_eq!(words, own);
    assert_eq!(words.unwrap()["rinse_first"], true);
}

#[test]
fn minutes_as_parts_of_an_hour() {
    let face = |hours: Value| {
        let question = json!({"hours_since_visit": hours, "swelling": "face", "trend": "same", "onset_hours": 0});
        ask(&question).unwrap()["urgency"].clone()
    };
    assert_eq!(face(json!(24)), "emergency");
    assert_eq!(face(json!(24.02)), "same_day");
    assert_eq!(face(json!("24:01")), "same_day");
    assert_eq!(face(json!(0.67)), "emergency");
}

#[test]
fn unknown_fields_are_refused_by_name() {
    let told = refused(json!({"airways": true}));
    assert!(
        told.starts_with("airways: unknown field `airways`, expected treatments or one of"),
        "{told}"
    );
    assert!(!told.contains("hours_since_onset"), "{told}");
    assert!(
        refused(json!({"hours_since_onset": 3})).starts_with("hours_since_onset: given `3:00`")
    );
    let twice = urgency(r#"{"itch": 1, "itch": 9}"#, &Content::built_in().unwrap());
    assert_eq!(
        twice.unwrap_err().to_string(),
        "itch: `itch` is given twice; give it once"
    );
}

#[test]
fn a_bad_value_names_its_field_what_was_given_and_what_is_allowed() {
    for (question, told) in [
        (
            json!({"airway": "perhaps"}),
            "airway: given `perhaps`; allowed is one of no, yes, not_sure",
        ),
        (
            json!({"airway": 1}),
            "airway: given `1`; allowed is one of no, yes, not_sure",
        ),
        (
            json!({"airway": ["yes"]}),
            "airway: given `[yes]`; allowed is one of no, yes, not_sure",
        ),
        (
            json!({"airway": ""}),
            "airway: given ``; allowed is one of no, yes, not_sure",
        ),
        (
            json!({"swelling": true}),
            "swelling: given `true`; allowed is one of none, local, lids, face, shut, not_sure",
        ),
        (
            json!({"itch": 11}),
            "itch: given `11`; allowed is a whole number from 0 to 10, or not_sure",
        ),
        (
            json!({"itch": 3.5}),
            "itch: given `3.5`; allowed is a whole number from 0 to 10, or not_sure",
        ),
        (
            json!({"redness": -1}),
            "redness: given `-1`; allowed is a whole number from 0 to 4, or not_sure",
        ),
        (
            json!({"hours_since_visit": -0.1}),
            "hours_since_visit: given `-0.1`; allowed is hours from 0 to 87600, or not_sure",
        ),
        (
            json!({"hours_since_visit": 5, "onset_hours": 6}),
            "onset_hours: given `6`; allowed is at most hours_since_visit: a sign that has begun did so before now",
        ),
    ] {
        assert_eq!(refused(question), told);
    }
    let told = refused(json!({"treatments": ["brow_glue"]}));
    assert!(
        told.starts_with("treatments: given `brow_glue`; allowed is a list of brow_wax, "),
        "{told}"
    );
    assert!(refused(json!([1])).starts_with("input: "));
}

#[test]
fn every_rule_and_advice_has_its_words() {
    let content = Content::built_in().unwrap();
    for words in content.languages.values() {
        for advice in &content.catalogue.urgency.advice {
            assert!(
                words
                    .get(&format!("urgency.advice.{}", advice.id))
                    .is_some()
            );
        }
    }
}
