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

/// The client reports: everything "no", then what is said. The report's address on the artist's side.
fn reports(server: &Server, link: &str, said: &[(&str, Value)]) -> String {
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
    let id = Uuid::new_v4();
    let sent = Visitor::at(server).put(&format!("{link}/reports/{id}"), &report);
    assert_eq!(sent.status, 201, "{}", sent.body);
    format!("/studio/reports/{id}")
}

/// As it is often seen: nothing but a little redness that gets better.
fn as_expected(server: &Server, link: &str) -> String {
    let said = [("redness", json!(1)), ("trend", json!("better"))];
    reports(server, link, &said)
}

/// The artist notes what became of a report, with the latest note before them.
fn noted(artist: &Visitor, report: &str, fields: &[(&str, &str)]) {
    let beside = artist.get(report).hidden("beside");
    let mut all = vec![("advised", "Rang her."), ("beside", beside.as_str())];
    all.extend(fields);
    let kept = artist.post_signed("/studio/reports", &format!("{report}/outcome"), &all);
    assert_eq!(kept.location(), report);
}

/// What `counts.json` says of a batch.
fn counted(artist: &Visitor, batch: &str) -> Value {
    let counts = artist.get("/studio/batches/counts.json").json();
    let all = counts["batches"].as_array().expect("batches").clone();
    let found = all.into_iter().find(|one| one["batch"] == batch);
    found.unwrap_or_else(|| panic!("no `{batch}`: {counts}"))
}

/// Verdict and reasons that the command gives for a batch of the record.
fn verdict(artist: &Visitor, batch: &str) -> (Value, Value) {
    let answer = asked(&artist.get("/studio/batches/counts.json").body);
    let all = answer["batches"].as_array().expect("answers");
    let found = all.iter().find(|one| one["batch"] == batch).expect("it");
    (found["verdict"].clone(), found["because"].clone())
}

fn rash(server: &Server, link: &str) -> String {
    let said = [
        ("rash", json!("yes")),
        ("redness", json!(2)),
        ("itch", json!(6)),
    ];
    reports(server, link, &said)
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
    as_expected(&server, &seven[3]);
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

/// "Serious" is what came of it and not how bad it looked (Commission guidelines on serious undesirable effects, 2012): a
/// report that sounded ordinary counts once a box of Regulation (EC) 1223/2009, Article 2(1)(p), is ticked for it, and more
/// than any figure.
#[test]
fn a_serious_report_counts_for_more_than_any_figure_however_mild_it_sounded() {
    let server = Server::empty();
    let artist = begin(&server);
    // One batch with one mild report; one which the figures set aside: 4 of 4 against 0 of 13.
    let one = visit(&artist, &[(TINT, "S-1")]);
    let mild = as_expected(&server, &one);
    for _ in 0..4 {
        visit(&artist, &[(TINT, "S-1")]);
        visit(&artist, &[(TINT, "S-3")]);
    }
    for _ in 0..4 {
        rash(&server, &visit(&artist, &[(TINT, "S-2")]));
    }
    let before = counted(&artist, "S-1");
    assert_eq!(
        (&before["serious"], &before["with"]["reactions"]),
        (&json!(0), &json!(0))
    );
    assert_eq!(verdict(&artist, "S-1").0, "nothing");
    assert_eq!(verdict(&artist, "S-2").0, "set_aside");

    noted(
        &artist,
        &mild,
        &[("serious", "hospitalisation"), ("ended", "hospital")],
    );
    let after = counted(&artist, "S-1");
    assert_eq!(
        after,
        json!({"batch": "S-1", "serious": 1, "serious_plausible": 1, "same_pattern": 0,
               "with": {"reactions": 1, "visits": 5, "answered": 1},
               "without": {"reactions": 4, "visits": 8, "answered": 4}})
    );
    let set_aside = (json!("set_aside"), json!(["serious_plausible"]));
    assert_eq!(verdict(&artist, "S-1"), set_aside);
    let screen = artist.get(BATCHES);
    let text = screen.text();
    let place = |batch: &str| text.find(&format!("batch {batch}")).expect(batch);
    assert!(
        place("S-1") < place("S-2") && place("S-2") < place("S-3"),
        "the serious one stands first: {text}"
    );
    assert!(text.contains(&say("batches.because.serious_plausible")));
    assert!(text.contains(&say("artist.batches.serious")));
    let way = format!("href=\"{mild}\"");
    assert_eq!(
        screen.body.matches(&way).count(),
        1,
        "the way to that report"
    );

    // Words in a field are for whoever assesses it: nothing is read out of them.
    let words = [
        ("serious", "hospitalisation"),
        ("other_explanations", "None that we know of."),
        ("tests", "None."),
        ("re_exposure", "not_performed"),
    ];
    noted(&artist, &mild, &words);
    assert_eq!(verdict(&artist, "S-1"), set_aside);
    // Used again without anything: a fact that speaks for the product (of the table of Begaud 1985 no row says "likely" then).
    // Worth a look all the same.
    let negative = [("serious", "hospitalisation"), ("re_exposure", "negative")];
    noted(&artist, &mild, &negative);
    assert_eq!(verdict(&artist, "S-1"), (json!("look"), json!(["serious"])));
    // The latest note counts.
    noted(&artist, &mild, &[]);
    assert_eq!(counted(&artist, "S-1"), before);
}

#[test]
fn of_several_products_at_a_visit_none_is_cleared() {
    let server = Server::empty();
    let artist = begin(&server);
    let both = visit(&artist, &[(TINT, "P-1"), ("Invented wax", "P-2")]);
    let report = rash(&server, &both);
    noted(
        &artist,
        &report,
        &[("serious", "vital_risk"), ("re_exposure", "negative")],
    );
    for batch in ["P-1", "P-2"] {
        assert_eq!(verdict(&artist, batch).0, "set_aside", "{batch}");
        assert_eq!(counted(&artist, batch)["serious_plausible"], 1, "{batch}");
    }
}

/// The same sign three times, each time with other measures of strength and time, so that each time other rules hold.
#[test]
fn the_same_sign_is_the_same_however_strong_and_however_late() {
    let server = Server::empty();
    let artist = begin(&server);
    let said: [&[(&str, Value)]; 3] = [
        &[
            ("rash", json!("yes")),
            ("itch", json!(7)),
            ("trend", json!("worse")),
            ("onset_hours", json!(0)),
        ],
        &[("rash", json!("yes"))],
        &[
            ("rash", json!("yes")),
            ("pain", json!(5)),
            ("fever", json!("yes")),
        ],
    ];
    for said in said {
        reports(&server, &visit(&artist, &[(TINT, "R-1")]), said);
    }
    let rules: i64 = server
        .home
        .record()
        .query_row("select count(distinct rules) from reports", [], |row| {
            row.get(0)
        })
        .expect("a count");
    assert_eq!(rules, 3, "not by the very same rules");
    assert_eq!(counted(&artist, "R-1")["same_pattern"], 3);
    // Strength alone, and time alone, are alike in nothing; a swollen lid and a swollen face are both swollen.
    for said in [("itch", 6), ("pain", 6)] {
        reports(
            &server,
            &visit(&artist, &[(TINT, "R-2")]),
            &[(said.0, json!(said.1))],
        );
        reports(
            &server,
            &visit(&artist, &[(TINT, "R-2")]),
            &[(said.0, json!(said.1))],
        );
    }
    assert_eq!(counted(&artist, "R-2")["same_pattern"], 0);
    assert_eq!(counted(&artist, "R-2")["with"]["reactions"], 4);
    for strength in ["lids", "face"] {
        let link = visit(&artist, &[(TINT, "R-3")]);
        let swollen = [("swelling", json!(strength)), ("trend", json!("same"))];
        reports(&server, &link, &swollen);
        // Twice by the same client is once.
        reports(&server, &link, &swollen);
    }
    assert_eq!(counted(&artist, "R-3")["same_pattern"], 2);
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
