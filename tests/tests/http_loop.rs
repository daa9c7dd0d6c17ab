//! The whole loop with forms alone: an empty studio is set up, a visit recorded, its page read, a report sent,
//! answered and settled, and the answer read.

use serde_json::Value;
use tests::{
    report::CONSENT,
    server::Server,
    visit_form::send_and_look,
    visitor::{Answer, Visitor},
};

/// The link on a visit's screen.
fn link(visit: &Answer) -> String {
    let state = visit
        .body
        .split("id=\"state\">")
        .nth(1)
        .and_then(|rest| rest.split("</script>").next());
    let state: Value = serde_json::from_str(state.expect("a state block")).expect("JSON");
    state["screen"]["visit"]["link"]["url"]
        .as_str()
        .expect("a link")
        .to_owned()
}

#[test]
fn a_visit_goes_all_the_way_round() {
    let server = Server::empty();
    let artist = Visitor::at(&server);

    // Whoever comes to the door is led to the first start.
    assert_eq!(artist.get("/").location(), "/studio");
    assert_eq!(artist.get("/studio").location(), "/studio/begin");
    let begin = artist.get("/studio/begin");
    assert_eq!(begin.status, 200);
    assert!(begin.body.contains("Pacific/Auckland"));
    let begun = artist.post(
        "/studio/begin",
        &[
            ("code", &server.set_up_code().to_lowercase()),
            ("studio_name", "Pellworm & Rake <Brows>"),
            ("artist_name", "Tilda Rake"),
            ("phone", "020 7946 0991"),
            ("contact_email", ""),
            ("region", "uk"),
            ("time_zone", "Europe/London"),
            ("email", "tilda@rake.example"),
            ("password", "  a long password, blanks and all  "),
        ],
    );
    assert_eq!(begun.location(), "/studio");

    // Twenty seconds with the gloves just off.
    let today = artist.get("/studio");
    assert_eq!(today.status, 200);
    assert!(
        today.text().contains("Pellworm & Rake <Brows>"),
        "{}",
        today.text()
    );
    let form = artist.get("/studio/visits/new");
    let visit_id = form.hidden("visit_id");
    let date = value_of(&form, "date");
    let time = value_of(&form, "time");
    let saved = send_and_look(
        &artist,
        &[
            ("visit_id", &visit_id),
            ("client", ""),
            ("first_name", "Ottoline"),
            ("reach", "07700 900999"),
            ("date", &date),
            ("time", &time),
            ("treatments", "brow_tint"),
            ("treatments", "brow_wax"),
            ("findings", "sensitive"),
            ("product_1", "Invented wax"),
            ("batch_1", "B-1"),
            ("product_2", ""),
            ("batch_2", ""),
            ("note", "Likes a high arch."),
        ],
    );
    let visit_page = saved.location().to_owned();
    assert_eq!(visit_page, format!("/studio/visits/{visit_id}"));
    let visit = artist.get(&visit_page);
    assert_eq!(visit.status, 200);
    for shown in [
        "Ottoline",
        "brow wax and brow tint",
        "Invented wax",
        "batch B-1",
        "Likes a high arch.",
        "Not opened yet",
    ] {
        assert!(visit.text().contains(shown), "{shown}: {}", visit.text());
    }
    let picture = artist.get(&format!("{visit_page}/qr.svg"));
    assert_eq!(
        (picture.status, picture.header("content-type")),
        (200, "image/svg+xml")
    );
    let slip = artist.get(&format!("{visit_page}/hand-over"));
    assert!(
        slip.text().contains("999"),
        "the emergency number is on the slip"
    );

    // The client, who has the link and nothing else.
    let link = link(&visit);
    let client = Visitor::at(&server);
    let page = client.get(&link);
    assert_eq!(page.status, 200);
    for shown in [
        "Ottoline",
        "brow wax",
        "Tilda Rake",
        "020 7946 0991",
        "999",
        "No sauna",
    ] {
        assert!(page.text().contains(shown), "{shown}: {}", page.text());
    }
    // Looking changes nothing: whether it was opened is said by the page itself, once it lives.
    assert_eq!(
        artist.get(&format!("{visit_page}/opened")).json()["opened"],
        Value::Null
    );
    assert_eq!(client.post(&format!("{link}/opened"), &[]).status, 204);
    let first = artist.get(&format!("{visit_page}/opened")).json();
    assert!(first["opened"]["text"].is_string());
    assert_eq!(client.post(&format!("{link}/opened"), &[]).status, 204);
    assert_eq!(
        artist.get(&format!("{visit_page}/opened")).json(),
        first,
        "the first opening counts"
    );

    let trouble = client.get(&format!("{link}/trouble"));
    let sent = client.post(
        &format!("{link}/reports"),
        &[
            ("report_id", &trouble.hidden("report_id")),
            ("itch", "6"),
            ("redness", "2"),
            ("onset", "0"),
            ("trend", "worse"),
            ("words", "It itches <b>a lot</b> & I worry."),
            ("reach", ""),
            ("consent", CONSENT),
        ],
    );
    let path = link.trim_start_matches(&server.address);
    assert_eq!(sent.location(), format!("{path}#reports"));
    let page = client.get(&link);
    assert!(page.text().contains("No answer yet"), "{}", page.text());

    // The inbox, and the report with its visit beside it.
    let inbox = artist.get("/studio/reports");
    assert!(
        inbox.text().contains("Ottoline")
            && inbox.text().contains("It itches <b>a lot</b> & I worry.")
    );
    let report = inbox
        .body
        .split("/studio/reports/")
        .skip(1)
        .filter_map(|rest| rest.get(..36))
        .find(|id| id.parse::<uuid::Uuid>().is_ok())
        .expect("a report");
    let report_page = format!("/studio/reports/{report}");
    let report = artist.get(&report_page);
    for shown in ["after the visit", "Worse", "Invented wax", "Itch 6/10"] {
        assert!(report.text().contains(shown), "{shown}: {}", report.text());
    }
    let answer_id = report.hidden("answer_id");
    let answer = [
        ("answer_id", answer_id.as_str()),
        ("text", "Cool it with a clean wet cloth. I will ring you."),
    ];
    assert_eq!(
        artist
            .post_signed("/studio", &format!("{report_page}/answer"), &answer)
            .location(),
        report_page
    );
    // A second tap on the button answers once.
    assert_eq!(
        artist
            .post_signed("/studio", &format!("{report_page}/answer"), &answer)
            .location(),
        report_page
    );
    let page = client.get(&link);
    assert_eq!(
        page.text()
            .matches("Cool it with a clean wet cloth.")
            .count(),
        1
    );
    assert!(page.text().contains("Tilda Rake answered"));
    let standing = client.get(&format!("{link}/standing")).json();
    assert_eq!(standing["reports"][0]["answers"][0]["text"], answer[1].1);
    assert_eq!(standing["reports"][0]["settled"], false);

    // Settled, opened again, settled.
    for (action, settled) in [
        ("settle", true),
        ("settle", true),
        ("reopen", false),
        ("settle", true),
    ] {
        artist
            .post_signed("/studio", &format!("{report_page}/{action}"), &[])
            .location();
        let standing = client.get(&format!("{link}/standing")).json();
        assert_eq!(standing["reports"][0]["settled"], settled, "{action}");
    }
    let events: i64 = server
        .home
        .record()
        .query_row("select count(*) from report_events", [], |row| row.get(0))
        .expect("a count");
    assert_eq!(
        events, 4,
        "one answer, settled, reopened, settled: a second tap adds nothing"
    );
}

/// What a field of the form holds already.
fn value_of(page: &Answer, name: &str) -> String {
    page.hidden(name)
}
