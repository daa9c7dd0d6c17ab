use serde_json::{Value, json};

use super::*;
use crate::cli::asking::{self, names, with};

fn ask(question: &Value) -> Result<Value, String> {
    asking::ask(batches, question)
}

fn example() -> Value {
    json!({"with": {"reactions": 3, "visits": 30}, "without": {"reactions": 3, "visits": 150}})
}

fn refused(field: &str, value: Value) -> String {
    ask(&with(example(), field, value)).unwrap_err()
}

#[test]
fn the_question_of_the_design() {
    let answer = ask(&example()).unwrap();
    assert_eq!(
        names(&answer),
        [
            "because",
            "exact_test",
            "ratio",
            "said",
            "verdict",
            "with",
            "without"
        ]
    );
    assert_eq!(answer["verdict"], "nothing");
    assert_eq!(answer["ratio"], 5.0);
    // 3 of 30: 0.0211 to 0.2653 (Clopper and Pearson).
    assert!((answer["with"]["low"].as_f64().unwrap() - 0.0211).abs() < 5e-5);
    assert!((answer["with"]["high"].as_f64().unwrap() - 0.2653).abs() < 5e-5);
    let said = answer["said"].to_string();
    assert!(
        said.contains("After 3 of 30 visits with this batch, and after 3 of 150 others."),
        "{said}"
    );
    assert!(
        said.contains("It is not known how many clients answered."),
        "{said}"
    );
}

/// Five, ten and twenty tests at 0.05: 22.6 %, 40.1 %, 64.2 % (arithmetic); shared out: 0.01, 0.005, 0.0025.
#[test]
fn how_many_were_compared() {
    for (compared, by_chance, limit) in [(5, 0.226, 0.01), (10, 0.401, 0.005), (20, 0.642, 0.0025)]
    {
        let answer = ask(&with(example(), "compared", json!(compared))).unwrap();
        let test = &answer["exact_test"];
        assert!(
            (test["by_chance"].as_f64().unwrap() - by_chance).abs() < 5e-4,
            "{test}"
        );
        assert!(
            (test["shared_limit"].as_f64().unwrap() - limit).abs() < 1e-12,
            "{test}"
        );
        assert!(
            answer["said"]
                .to_string()
                .contains(&format!("Batches compared: {compared}."))
        );
    }
}

#[test]
fn one_serious_report_outranks_the_figures() {
    let one = json!({"with": {"reactions": 1, "visits": 100}, "without": {"reactions": 9, "visits": 100}});
    let verdict = |question: Value| {
        let answer = ask(&question).unwrap();
        (answer["verdict"].clone(), answer["because"].clone())
    };
    assert_eq!(verdict(one.clone()), (json!("nothing"), json!([])));
    let serious = with(one, "serious", json!(1));
    assert_eq!(
        verdict(serious.clone()),
        (json!("look"), json!(["serious"]))
    );
    let plausible = with(serious, "serious_plausible", json!(1));
    assert_eq!(
        verdict(plausible),
        (json!("set_aside"), json!(["serious_plausible"]))
    );
}

#[test]
fn two_reports_alike_are_worth_a_look() {
    let question = with(example(), "same_pattern", json!(2));
    let answer = ask(&question).unwrap();
    assert_eq!(
        (&answer["verdict"], &answer["because"]),
        (&json!("look"), &json!(["same_pattern"]))
    );
    assert!(
        answer["said"]
            .to_string()
            .contains("Visits with this batch after which the same sign was reported: 2.")
    );
}

#[test]
fn several_batches_and_who_answered() {
    let one = |name: &str, reactions: u32| {
        json!({"batch": name, "with": {"reactions": reactions, "visits": 20, "answered": 12},
               "without": {"reactions": 2, "visits": 140, "answered": 90}})
    };
    let answer =
        ask(&json!({"batches": [one("T-17", 0), one("T-18", 5)], "language": "fr"})).unwrap();
    assert_eq!(names(&answer), ["batches", "compared"]);
    assert_eq!(answer["compared"], 2);
    assert_eq!(answer["batches"][0]["verdict"], "nothing");
    assert_eq!(answer["batches"][1]["verdict"], "set_aside");
    assert_eq!(answer["batches"][1]["batch"], "T-18");
    assert!(
        answer["batches"][1]["said"]
            .to_string()
            .contains("102 réponses pour 160 visites")
    );
}

#[test]
fn bad_values_name_field_given_and_allowed() {
    let told = |field, value: Value| refused(field, value);
    assert_eq!(
        told("with", json!({"reactions": 31, "visits": 30})),
        "with.reactions: given `31`; allowed is 0 to 30"
    );
    assert_eq!(
        told(
            "without",
            json!({"reactions": 3, "visits": 150, "answered": 2})
        ),
        "without.reactions: given `3`; allowed is 0 to 2"
    );
    assert_eq!(
        told("without", json!({"reactions": 3, "visits": 1_000_001})),
        "without.visits: given `1000001`; allowed is 0 to 1000000"
    );
    assert_eq!(
        told("serious", json!(4)),
        "serious: given `4`; allowed is 0 to 3"
    );
    assert_eq!(
        told("serious_plausible", json!(1)),
        "serious_plausible: given `1`; allowed is 0 to 0"
    );
    assert_eq!(
        told("compared", json!(0)),
        "compared: given `0`; allowed is 1 or more: so many are given"
    );
    assert!(
        told("language", json!("tlh")).starts_with("language: given `tlh`; allowed is one of en, ")
    );
    assert!(told("batchs", json!([])).starts_with("batchs: unknown field `batchs`"));
    assert!(
        told("with", json!({"reactions": -1, "visits": 2}))
            .starts_with("with.reactions: invalid value")
    );
    assert!(told("batches", json!([])).contains("either `batches` or `with`"));
    assert_eq!(ask(&json!({})).unwrap_err(), "with: missing field `with`");
    assert_eq!(
        ask(&json!({"batches": []})).unwrap_err(),
        "batches: given `0`; allowed is 1 to 1000 batches"
    );
    let twice = json!({"batches": [{"with": {"reactions": 0, "visits": 1}, "without": {"reactions": 2, "visits": 1}}]});
    assert_eq!(
        ask(&twice).unwrap_err(),
        "batches[0].without.reactions: given `2`; allowed is 0 to 1"
    );
}
