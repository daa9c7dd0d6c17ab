//! An open screen is told what comes in, as long as somebody is signed in on it.

#![cfg(test)]

use serde_json::{Value, json};
use tests::{events::Events, server::Server, visitor::Visitor, words::say};
use uuid::Uuid;

const LIVE: &str = "/studio/live";

fn listen(server: &Server, artist: &Visitor) -> Events {
    let cookie = artist.cookie().expect("a session");
    Events::open(&format!("{}{LIVE}", server.address), Some(&cookie))
        .unwrap_or_else(|answer| panic!("{}", answer.status()))
}

fn report(server: &Server) -> Uuid {
    let id = Uuid::new_v4();
    let path = format!("{}/reports/{id}", server.client_links()[0]);
    let sent = Visitor::at(server).put(&path, &tests::report::report("It is red."));
    assert_eq!(sent.status, 201, "{}", sent.body);
    id
}

fn number(waiting: &Value, field: &str) -> i64 {
    waiting[field].as_i64().expect("a number")
}

#[test]
fn a_report_is_told_when_it_comes_and_when_it_is_settled() {
    let server = Server::demo();
    let artist = Visitor::demo_artist(&server);
    let events = listen(&server, &artist);
    assert_eq!(events.kind, "text/event-stream");
    assert!(
        events.headers.get("content-encoding").is_none(),
        "nothing gathers it"
    );
    assert_eq!(events.headers["cache-control"], "private, no-store");
    let begun = events.json("waiting");

    let id = report(&server);
    let come = events.json("waiting");
    assert_eq!(number(&come, "reports"), number(&begun, "reports") + 1);
    assert_eq!(number(&come, "reported"), number(&begun, "reported") + 1);
    assert_eq!(number(&come, "wishes"), number(&begun, "wishes"));
    assert_eq!(come["report"]["address"], format!("/studio/reports/{id}"));
    let level = say("told_at_once.level.studio");
    let said = say("artist.live.report").replace("{level}", &level);
    assert_eq!(come["report"]["said"], said);
    assert!(
        !come.to_string().contains("It is red."),
        "what was written is not in it"
    );

    let settle = format!("/studio/reports/{id}/settle");
    assert_eq!(artist.post_signed("/studio", &settle, &[]).status, 303);
    let settled = events.json("waiting");
    assert_eq!(number(&settled, "reports"), number(&begun, "reports"));
    assert_eq!(
        number(&settled, "reported"),
        number(&come, "reported"),
        "nothing new came in"
    );

    // The screen that is drawn next begins where the stream is.
    let page = artist.get("/studio").body;
    let state = page.split("id=\"state\">").nth(1).expect("a state");
    let state: Value =
        serde_json::from_str(state.split("</script>").next().expect("its end")).expect("JSON");
    assert_eq!(state["waiting"], settled);
}

#[test]
fn a_wish_is_told_too() {
    let server = Server::demo();
    let artist = Visitor::demo_artist(&server);
    let events = listen(&server, &artist);
    let begun = events.json("waiting");
    let id = Uuid::new_v4();
    let path = format!("{}/wishes/{id}", server.client_links()[0]);
    let day = (chrono::Utc::now() + chrono::Days::new(9)).date_naive();
    let times = json!([{"date": day.to_string(), "time": ""}]);
    let wish = json!({"times": times, "words": "Any evening, please.", "reach": ""});
    let sent = Visitor::at(&server).put(&path, &wish);
    assert_eq!(sent.status, 201, "{}", sent.body);
    let come = events.json("waiting");
    assert_eq!(number(&come, "wished"), number(&begun, "wished") + 1);
    assert_eq!(number(&come, "reported"), number(&begun, "reported"));
    assert_eq!(come["wish"]["address"], format!("/studio/wishes/{id}"));
}

#[test]
fn it_ends_with_the_session_and_does_not_keep_it_alive() {
    let server = Server::demo();
    let address = format!("{}{LIVE}", server.address);
    let refused = |cookie: Option<&str>| match Events::open(&address, cookie) {
        Ok(_) => panic!("a stranger listens"),
        Err(answer) => {
            assert_eq!(answer.status(), 401);
            assert_eq!(answer.headers()["content-type"], "application/problem+json");
        }
    };
    refused(None);

    let artist = Visitor::demo_artist(&server);
    let events = listen(&server, &artist);
    events.json("waiting");
    let cookie = artist.cookie().expect("a session");
    assert_eq!(
        artist
            .post_signed("/studio", "/studio/sign-out", &[])
            .status,
        303
    );
    assert_eq!(events.next(), None, "signed out");
    refused(Some(&cookie));

    let used_at = |server: &Server| -> i64 {
        let record = server.home.record();
        let used_at = "select used_at from sessions";
        record
            .query_row(used_at, [], |row| row.get(0))
            .expect("one session")
    };
    let artist = Visitor::demo_artist(&server);
    let ago = |minutes: i64| {
        let record = server.home.record();
        let change = "update sessions set used_at = used_at - ?1";
        record
            .execute(change, [minutes * 60_000])
            .expect("a change");
    };
    ago(30);
    let before = used_at(&server);
    let events = listen(&server, &artist);
    events.json("waiting");
    assert_eq!(
        used_at(&server),
        before,
        "listening is no use of the session"
    );
    // Twelve hours untouched: what comes in then is told to nobody.
    ago(12 * 60);
    report(&server);
    assert_eq!(events.next(), None);
}

#[test]
fn too_many_screens_make_way_for_the_newest() {
    let server = Server::demo();
    let artist = Visitor::demo_artist(&server);
    let first: Vec<Events> = (0..studio::live::MOST_STREAMS)
        .map(|_| listen(&server, &artist))
        .collect();
    for events in &first {
        events.json("waiting");
    }
    let newest = listen(&server, &artist);
    newest.json("waiting");
    assert_eq!(first[0].next().expect("an event").0, "elsewhere");
    assert_eq!(first[0].next(), None);
    // Somebody else's screen is not counted with them.
    let other = Visitor::demo_artist(&server);
    let others = listen(&server, &other);
    others.json("waiting");
    report(&server);
    for events in first[1..].iter().chain([&newest, &others]) {
        events.json("waiting");
    }
}

#[test]
fn a_studio_that_stops_ends_it() {
    let server = Server::demo();
    let artist = Visitor::demo_artist(&server);
    let events = listen(&server, &artist);
    events.json("waiting");
    let home = server.home.clone();
    assert!(server.stop().success());
    assert_eq!(events.next(), None);
    let said = home.output();
    assert!(
        said.contains("stopped") && !said.contains("before every connection had ended"),
        "{said}"
    );
}

#[test]
fn that_it_got_worse_is_told_like_a_report() {
    let server = Server::demo();
    let artist = Visitor::demo_artist(&server);
    let id = report(&server);
    let settle = format!("/studio/reports/{id}/settle");
    assert_eq!(artist.post_signed("/studio", &settle, &[]).status, 303);
    let events = listen(&server, &artist);
    let begun = events.json("waiting");
    server.home.let_pass(25);
    let path = format!("{}/reports/{id}/follow-ups/24", server.client_links()[0]);
    let said = Visitor::at(&server).put(&path, &json!({"how": "worse"}));
    assert_eq!(said.status, 200, "{}", said.body);
    let come = events.json("waiting");
    assert_eq!(
        number(&come, "reports"),
        number(&begun, "reports") + 1,
        "it waits again"
    );
    assert_eq!(number(&come, "reported"), number(&begun, "reported") + 1);
    assert_eq!(come["report"]["address"], format!("/studio/reports/{id}"));
}
