//! Reactions by batch: counted from what was recorded through the real door, compared by the same function as
//! `studio batches`, whose figures are held against `statrs`.

#![cfg(test)]

use std::{
    io::Write,
    process::{Command, Stdio},
};

use serde_json::{Map, Value, json};
use shared_types::urgency::{Field, Scale};
use statrs::distribution::{Beta, ContinuousCDF, DiscreteCDF, Hypergeometric};
use tests::{
    begin::{begin, link_on},
    report::report,
    server::{Server, binary},
    visit_form::VisitForm,
    visitor::Visitor,
    words::say,
};
use uuid::Uuid;

const BATCHES: &str = "/studio/batches";
const TINT: &str = "Invented tint";

/// Records a visit of a new client with these products; the path of the client's page.
fn visit(artist: &Visitor, products: &[(&str, &str)]) -> String {
    let mut fields = Vec::new();
    for ((product, batch), (name, number)) in products
        .iter()
        .zip([("product_1", "batch_1"), ("product_2", "batch_2")])
    {
        fields.extend([(name, *product), (number, *batch)]);
    }
    let saved = VisitForm::fresh(artist).send(artist, &fields);
    link_on(&artist.get(saved.location()))
}

/// The client reports: everything "no", then what is said.
fn reports(server: &Server, link: &str, said: &[(&str, Value)]) {
    let mut answers = Map::new();
    for field in Field::ALL {
        match field.scale() {
            Scale::OneOf(terms) => answers.insert(field.term().to_owned(), json!(terms[0])),
            Scale::UpTo(_) => answers.insert(field.term().to_owned(), json!(0)),
            Scale::Hours => None,
        };
    }
    for (field, answer) in said {
        answers.insert((*field).to_owned(), answer.clone());
    }
    let mut report = report("It is red.");
    report["answers"] = Value::Object(answers);
    let path = format!("{link}/reports/{}", Uuid::new_v4());
    let sent = Visitor::at(server).put(&path, &report);
    assert_eq!(sent.status, 201, "{}", sent.body);
}

fn rash(server: &Server, link: &str) {
    let said = [
        ("rash", json!("yes")),
        ("redness", json!(2)),
        ("itch", json!(6)),
    ];
    reports(server, link, &said);
}

/// What `studio batches` answers.
fn asked(question: &str) -> Value {
    let mut studio = Command::new(binary())
        .arg("batches")
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("the studio starts");
    let mut input = studio.stdin.take().expect("its input");
    input.write_all(question.as_bytes()).expect("it reads");
    drop(input);
    let output = studio.wait_with_output().expect("its end");
    assert!(output.status.success());
    serde_json::from_slice(&output.stdout).expect("JSON")
}

#[test]
fn what_the_record_holds_is_counted_and_compared() {
    let server = Server::empty();
    let artist = begin(&server);
    let nothing = artist.get(BATCHES).text();
    assert!(nothing.contains(&say("artist.batches.none")), "{nothing}");

    // Ten visits with one batch, however it was written: three of them with a reaction, one of which was reported twice, and
    // one with what is often seen.
    let seven: Vec<String> = [
        "L-7", "l-7", " L-7 ", "L-7", "L-7", "L-7", "L-7", "L-7", "L-7", "L-7",
    ]
    .iter()
    .map(|batch| visit(&artist, &[(TINT, batch)]))
    .collect();
    rash(&server, &seven[0]);
    rash(&server, &seven[1]);
    rash(&server, &seven[1]);
    reports(&server, &seven[2], &[("hives", json!("local"))]);
    reports(
        &server,
        &seven[3],
        &[("redness", json!(1)), ("trend", json!("better"))],
    );
    // Twelve with another, one of them with a reaction, one with a second product as well; three without any batch.
    let eight: Vec<String> = (0..12)
        .map(|at| {
            let second = ("Invented wax", if at == 0 { "W 1" } else { "" });
            visit(&artist, &[("invented  TINT", "L-8"), second])
        })
        .collect();
    rash(&server, &eight[5]);
    for _ in 0..3 {
        visit(&artist, &[]);
    }

    let counts = artist.get("/studio/batches/counts.json");
    let batch = |name: &str| {
        let batches = counts.json()["batches"].clone();
        let batches = batches.as_array().expect("batches").clone();
        let found = batches.into_iter().find(|one| one["batch"] == name);
        found.unwrap_or_else(|| panic!("no `{name}`: {}", counts.body))
    };
    assert_eq!(
        batch("L-7"),
        json!({"batch": "L-7", "serious": 0, "serious_plausible": 0, "same_pattern": 2,
               "with": {"reactions": 3, "visits": 10, "answered": 4},
               "without": {"reactions": 1, "visits": 15, "answered": 1}})
    );
    assert_eq!(
        batch("L-8"),
        json!({"batch": "L-8", "serious": 0, "serious_plausible": 0, "same_pattern": 1,
               "with": {"reactions": 1, "visits": 12, "answered": 1},
               "without": {"reactions": 3, "visits": 13, "answered": 4}})
    );
    assert_eq!(
        batch("W 1")["with"],
        json!({"reactions": 0, "visits": 1, "answered": 0})
    );

    // The command says the same, to the word and to the last digit that is shown.
    let answer = asked(&counts.body);
    assert_eq!(answer["compared"], 3);
    let screen = artist.get(BATCHES).text();
    for one in answer["batches"].as_array().expect("answers") {
        for said in one["said"].as_array().expect("sentences") {
            let said = said.as_str().expect("a sentence");
            assert!(screen.contains(said), "`{said}` in {screen}");
        }
        for (side, key) in [
            ("with", "artist.batches.with"),
            ("without", "artist.batches.others"),
        ] {
            let share = &one[side];
            let per_cent = |of: &str| share[of].as_f64().expect("a share") * 100.0;
            let said = say(key)
                .replace("{a}", &share["reactions"].to_string())
                .replace("{b}", &share["visits"].to_string())
                .replace("{low}", &format!("{:.0}", per_cent("low").floor()))
                .replace("{high}", &format!("{:.0}", per_cent("high").ceil()));
            assert!(screen.contains(&said), "`{said}` in {screen}");
        }
    }
    let seven = &answer["batches"]
        .as_array()
        .and_then(|all| all.iter().find(|one| one["batch"] == "L-7"))
        .expect("L-7")
        .clone();
    // Two reports of one kind are worth a look; 3 of 10 against 1 of 15 alone would not be.
    assert_eq!(
        (&seven["verdict"], &seven["because"]),
        (&json!("look"), &json!(["same_pattern"]))
    );

    // statrs: 25 visits, 4 with a reaction, 10 drawn; at least 3 among them. And the exact interval of 3 of 10.
    let close = |given: &Value, expected: f64| {
        let given = given.as_f64().expect("a number");
        assert!(
            (given - expected).abs() < 1e-7,
            "{given}, expected {expected}"
        );
    };
    let drawn = Hypergeometric::new(25, 4, 10).expect("a distribution");
    close(&seven["exact_test"]["one_sided"], drawn.sf(2));
    close(
        &seven["with"]["low"],
        Beta::new(3.0, 8.0).expect("it").inverse_cdf(0.025),
    );
    close(
        &seven["with"]["high"],
        Beta::new(4.0, 7.0).expect("it").inverse_cdf(0.975),
    );

    // What stands out comes first, and the visits with a product of unknown batch are told of.
    let place = |batch: &str| screen.find(&format!("batch {batch}")).expect(batch);
    assert!(place("L-7") < place("L-8") && place("L-7") < place("W 1"));
    let unknown = say("artist.batches.without_batch.other").replace("{n}", "11");
    assert!(screen.contains(&unknown), "{screen}");
    assert!(
        artist.get("/studio/reports").body.contains(BATCHES),
        "the way to it"
    );
}

#[test]
fn it_is_for_the_signed_in_artist() {
    let server = Server::demo();
    let stranger = Visitor::at(&server);
    for path in [BATCHES, "/studio/batches/counts.json"] {
        assert_eq!(stranger.get(path).location(), "/studio/sign-in");
        assert_eq!(Visitor::demo_artist(&server).get(path).status, 200);
    }
}
