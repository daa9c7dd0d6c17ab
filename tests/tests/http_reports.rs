//! A report is taken once, whole, and never lost; what cannot be taken is said in a sentence.

use reqwest::Method;
use serde_json::{Value, json};
use tests::{
    report::{CONSENT, report},
    server::Server,
    visitor::Visitor,
    words::say,
};
use uuid::Uuid;

fn in_the_record(server: &Server) -> i64 {
    server
        .home
        .record()
        .query_row("select count(*) from reports", [], |row| row.get(0))
        .expect("a count")
}

#[test]
fn the_same_id_again_is_the_same_report() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let link = &server.client_links()[0];
    let before = in_the_record(&server);
    let path = format!("{link}/reports/{}", Uuid::new_v4());

    let first = client.put(&path, &report("It is red."));
    assert_eq!(
        (first.status, first.header("content-type")),
        (201, "application/json")
    );
    let again = client.put(&path, &report("  It is red. \n"));
    assert_eq!(again.status, 200);
    assert_eq!(
        again.json()["received"]["at"],
        first.json()["received"]["at"]
    );
    assert_eq!(again.json()["id"], first.json()["id"]);
    assert_eq!(in_the_record(&server), before + 1);

    // Another report under the same id, from here or from another visit, is told so and changes nothing.
    let other = client.put(&path, &report("Something else."));
    assert_eq!(
        (other.status, other.header("content-type")),
        (409, "application/problem+json")
    );
    assert_eq!(other.json()["type"], "/problems/report_id_in_use");
    let elsewhere = path.replace(link.as_str(), &server.client_links()[2]);
    assert_eq!(client.put(&elsewhere, &report("It is red.")).status, 409);
    assert_eq!(in_the_record(&server), before + 1);
    let standing = client.get(&format!("{link}/standing")).json();
    assert!(
        standing["reports"][0]["gist"]
            .as_str()
            .expect("a gist")
            .ends_with("It is red.")
    );
}

#[test]
fn what_cannot_be_taken_is_a_problem_with_a_sentence() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let link = &server.client_links()[0];
    let before = in_the_record(&server);
    let path = format!("{link}/reports/{}", Uuid::new_v4());
    let with = |field: &str, value: Value| {
        let mut report = report("It is red.");
        report[field] = value;
        report.to_string()
    };

    for (sent, status, said) in [
        ("{".to_owned(), 400, "EOF"),
        ("[]".to_owned(), 400, "Report"),
        ("{}".to_owned(), 400, "missing field `answers`"),
        (with("colour", json!("red")), 400, "unknown field `colour`"),
        (
            with("places", json!(["knee"])),
            400,
            "unknown variant `knee`, expected one of `right_brow`",
        ),
        (
            with("answers", json!({"colour": "red"})),
            400,
            "colour: this field is not known",
        ),
        (
            with("answers", json!({"swelling": "huge"})),
            400,
            "swelling: given `huge`; allowed is one of none, local",
        ),
        (with("photos", json!(2)), 422, &say("fault.consent_photos")),
        (with("photos", json!(9)), 422, &say("fault.consent_photos")),
        (with("words", json!(7)), 400, "expected a string"),
        (
            with(
                "consents",
                json!({"report": null, "photos": null, "supplier": null}),
            ),
            422,
            &say("fault.consent"),
        ),
        (
            with("words", json!("x".repeat(4001))),
            422,
            &say("fault.words_long"),
        ),
        (
            with("reach", json!("x".repeat(201))),
            422,
            &say("fault.reach_long"),
        ),
        (
            json!({"answers": {"hours_since_visit": 1}, "places": [], "words": "  ", "reach": "",
                "consents": {"report": "1", "photos": null, "supplier": null}})
            .to_string(),
            422,
            &say("fault.report_empty"),
        ),
        (
            with("words", json!("x".repeat(70_000))),
            413,
            &say("notice.too_large.sentence"),
        ),
    ] {
        let answer = client.put_text(&path, &sent);
        let start = &sent[..sent.len().min(60)];
        assert_eq!(
            (answer.status, answer.header("content-type")),
            (status, "application/problem+json"),
            "{start}"
        );
        let problem = answer.json();
        assert_eq!(problem["status"], status, "{start}");
        assert!(
            problem["title"]
                .as_str()
                .is_some_and(|title| !title.is_empty())
        );
        let detail = problem["detail"].as_str().expect("a detail");
        assert!(detail.contains(said), "{start}: {detail}");
    }
    let no_id = client.put_text(&format!("{link}/reports/first"), &report("x").to_string());
    assert_eq!(
        (no_id.status, no_id.header("content-type")),
        (400, "application/problem+json")
    );
    let kind = [("content-type", "text/plain")];
    assert_eq!(
        client
            .ask(Method::PUT, &path, &kind, Some(report("x").to_string()))
            .status,
        415
    );
    assert_eq!(client.ask(Method::DELETE, &path, &[], None).status, 405);
    assert_eq!(in_the_record(&server), before, "nothing half-written");

    // The longest that is allowed is taken, in characters of four bytes each.
    let longest = with("words", json!("\u{1F9F4}".repeat(4000)));
    assert_eq!(client.put_text(&path, &longest).status, 201);
}

#[test]
fn the_form_comes_back_with_what_was_typed() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let link = &server.client_links()[0];
    let id = client.get(&format!("{link}/trouble")).hidden("report_id");
    let answer = client.post(
        &format!("{link}/reports"),
        &[
            ("report_id", &id),
            ("swelling", "local"),
            ("trend", "worse"),
            ("words", "Typed <with> care."),
            ("reach", "0123"),
        ],
    );
    assert_eq!(answer.status, 422);
    assert!(answer.text().contains(&say("fault.consent")));
    assert!(answer.text().contains("Typed <with> care."));
    assert!(answer.body.contains("0123"));
    assert_eq!(answer.hidden("report_id"), id, "the same report, still");
    let ticked = |value: &str| {
        answer.body.split("<input ").any(|rest| {
            let tag = rest.split('>').next().unwrap_or("");
            tag.contains(&format!("value=\"{value}\"")) && tag.contains("checked")
        })
    };
    assert!(ticked("local") && ticked("worse") && !ticked("better"));
}

#[test]
fn a_form_filled_in_again_after_going_back_is_another_report() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let link = &server.client_links()[0];
    let before = in_the_record(&server);
    let id = client.get(&format!("{link}/trouble")).hidden("report_id");
    let send = |words: &str| {
        let fields = [
            ("report_id", id.as_str()),
            ("redness", "1"),
            ("words", words),
            ("consent", CONSENT),
        ];
        client.post(&format!("{link}/reports"), &fields)
    };
    send("The first.").location();
    send("The first.").location();
    assert_eq!(in_the_record(&server), before + 1, "a second tap");
    send("The second.").location();
    assert_eq!(in_the_record(&server), before + 2, "another report");
    let page = client.get(link).text();
    assert!(
        page.contains("The first.") && page.contains("The second."),
        "{page}"
    );
}

#[test]
fn fields_and_terms_that_the_form_does_not_have_are_refused() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let path = format!("{}/reports", server.client_links()[0]);
    for fields in [
        [("colour", "red"), ("consent", "1")],
        [("swelling", "a_knee"), ("consent", "1")],
    ] {
        let answer = client.post(&path, &fields);
        assert_eq!(
            (answer.status, answer.header("content-type")),
            (400, "text/html; charset=utf-8")
        );
    }
    let large = "x".repeat(70_000);
    assert_eq!(client.post(&path, &[("words", &large)]).status, 413);
}

#[test]
fn new_reports_are_limited_and_sending_again_is_not() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let link = &server.client_links()[0];
    let ids: Vec<Uuid> = (0..40).map(|_| Uuid::new_v4()).collect();
    let statuses: Vec<u16> = ids
        .iter()
        .map(|id| {
            client
                .put(&format!("{link}/reports/{id}"), &report(&id.to_string()))
                .status
        })
        .collect();
    let taken = statuses.iter().filter(|status| **status == 201).count();
    assert!((30..40).contains(&taken), "{statuses:?}");
    let refused = statuses
        .iter()
        .position(|status| *status == 429)
        .expect("a limit");
    let answer = client.put(
        &format!("{link}/reports/{}", ids[refused]),
        &report(&ids[refused].to_string()),
    );
    assert_eq!(answer.status, 429);
    assert!(
        answer
            .header("retry-after")
            .parse::<u32>()
            .is_ok_and(|seconds| seconds > 0)
    );
    assert!(
        answer.json()["detail"]
            .as_str()
            .expect("a detail")
            .contains("second")
    );
    // What was taken is acknowledged again whatever the limit says, and another client is not held back.
    let again = client.put(
        &format!("{link}/reports/{}", ids[0]),
        &report(&ids[0].to_string()),
    );
    assert_eq!(again.status, 200);
    let other = format!("{}/reports/{}", server.client_links()[1], Uuid::new_v4());
    assert_eq!(client.put(&other, &report("x")).status, 201);
}
