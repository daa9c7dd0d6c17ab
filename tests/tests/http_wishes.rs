//! A wish for a time is taken once, whole, and never lost; what cannot be taken is said in a sentence; the studio's
//! answer comes back to the client.

use jiff::{ToSpan, civil};
use reqwest::Method;
use serde_json::{Value, json};
use tests::{server::Server, visitor::Visitor, words::say};
use uuid::Uuid;

/// So many days from today, at the demo's studio: worked out by another library than the studio's own.
fn day(days: i32) -> civil::Date {
    let now = jiff::Timestamp::now().in_tz("Europe/London");
    let today = now.expect("a time zone").date();
    today.checked_add(days.days()).expect("a date")
}

/// As the studio writes it, within half a year: "Thursday 3 December".
fn written(date: civil::Date) -> String {
    date.strftime("%A %-d %B").to_string()
}

fn wish(words: &str) -> Value {
    json!({"times": [{"date": day(9).to_string(), "time": "14:30"}, {"date": day(12).to_string(), "time": ""}],
           "words": words, "reach": ""})
}

fn count(server: &Server, query: &str) -> i64 {
    let record = server.home.record();
    record
        .query_row(query, [], |row| row.get(0))
        .expect("a count")
}

fn in_the_record(server: &Server) -> i64 {
    count(server, "select count(*) from wishes")
}

/// The newest wish of the first client, sent through the living page's door.
fn send(server: &Server, words: &str) -> String {
    let id = Uuid::new_v4().to_string();
    let path = format!("{}/wishes/{id}", server.client_links()[0]);
    let answer = Visitor::at(server).put(&path, &wish(words));
    assert_eq!(answer.status, 201, "{}", answer.body);
    id
}

#[test]
fn the_same_id_again_is_the_same_wish() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let link = &server.client_links()[0];
    let before = in_the_record(&server);
    let path = format!("{link}/wishes/{}", Uuid::new_v4());
    // The studio keeps pages for a moment: this one must not be shown once the wish is there.
    assert!(!client.get(link).text().contains("After work."));

    let first = client.put(&path, &wish("After work."));
    assert_eq!(
        (first.status, first.header("content-type")),
        (201, "application/json")
    );
    let again = client.put(&path, &wish("  After work. \n"));
    assert_eq!(again.status, 200);
    assert_eq!(again.json(), first.json());
    assert_eq!(in_the_record(&server), before + 1);

    // Another wish under the same id, from here or from another visit, is told so and changes nothing.
    let other = client.put(&path, &wish("Something else."));
    assert_eq!(
        (other.status, other.header("content-type")),
        (409, "application/problem+json")
    );
    assert_eq!(other.json()["type"], "/problems/wish_id_in_use");
    let elsewhere = path.replace(link.as_str(), &server.client_links()[2]);
    assert_eq!(client.put(&elsewhere, &wish("After work.")).status, 409);
    assert_eq!(in_the_record(&server), before + 1);

    let standing = client.get(&format!("{link}/standing")).json();
    let gist = standing["wishes"][0]["gist"].as_str().expect("a gist");
    let said = format!(
        "{}, 14:30 · {} · After work.",
        written(day(9)),
        written(day(12))
    );
    assert_eq!(gist, said);
    let page = client.get(link).text();
    assert!(
        page.contains(&said) && page.contains(&say("client.reports.waiting")),
        "{page}"
    );
}

#[test]
fn a_wish_that_was_taken_is_acknowledged_also_when_its_days_are_over() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let link = &server.client_links()[0];
    let old =
        json!({"times": [{"date": day(-2).to_string(), "time": ""}], "words": "", "reach": ""});
    let id = Uuid::new_v4();
    let path = format!("{link}/wishes/{id}");
    let refused = client.put(&path, &old);
    assert_eq!(refused.status, 422);
    assert_eq!(refused.json()["detail"], say("fault.wish_past"));
    // As if it had been sent three days ago, and the answer been lost since.
    let record = server.home.record();
    let added = record.execute(
        "insert into wishes (id, visit, link, received_at, times, words, reach)
         select ?1, visit, link, unixepoch() * 1000 - 259200000, ?2, '', '' from
         (select visit, id as link from links where visit = (select id from visits order by finished_at desc limit 1))",
        rusqlite::params![id, old["times"].to_string()],
    );
    assert_eq!(added.expect("room"), 1);
    assert_eq!(client.put(&path, &old).status, 200);
}

#[test]
fn what_cannot_be_taken_is_a_problem_with_a_sentence() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let link = &server.client_links()[0];
    let before = in_the_record(&server);
    let path = format!("{link}/wishes/{}", Uuid::new_v4());
    let with = |field: &str, value: Value| {
        let mut wish = wish("After work.");
        wish[field] = value;
        wish.to_string()
    };
    let on = |date: String| json!([{"date": date, "time": ""}]);
    let four: Vec<Value> = (9..13)
        .map(|days| json!({"date": day(days).to_string(), "time": ""}))
        .collect();

    for (sent, status, said) in [
        ("{".to_owned(), 400, "EOF"),
        ("{}".to_owned(), 400, "missing field `times`"),
        (with("colour", json!("red")), 400, "unknown field `colour`"),
        (
            with("times", json!([{"date": "soon", "time": ""}])),
            422,
            &say("fault.date"),
        ),
        (
            with(
                "times",
                json!([{"date": day(9).to_string(), "time": "", "part": "morning"}]),
            ),
            400,
            "unknown field `part`",
        ),
        (with("times", json!([])), 422, &say("fault.wish_none")),
        (with("times", json!(four)), 422, &say("fault.wish_many")),
        (
            with("times", on(day(-1).to_string())),
            422,
            &say("fault.wish_past"),
        ),
        (
            with("times", on(day(400).to_string())),
            422,
            &say("fault.wish_far"),
        ),
        (
            with("words", json!("x".repeat(501))),
            422,
            &say("fault.words_long"),
        ),
        (
            with("reach", json!("x".repeat(201))),
            422,
            &say("fault.reach_long"),
        ),
        (
            with("words", json!("x".repeat(70_000))),
            413,
            &say("notice.too_large.sentence"),
        ),
    ] {
        let answer = client.put_text(&path, &sent);
        let start = &sent[..sent.len().min(90)];
        assert_eq!(
            (answer.status, answer.header("content-type")),
            (status, "application/problem+json"),
            "{start}"
        );
        let detail = answer.json()["detail"]
            .as_str()
            .expect("a detail")
            .to_owned();
        assert!(detail.contains(said), "{start}: {detail}");
    }
    assert_eq!(client.ask(Method::DELETE, &path, &[], None).status, 405);
    assert_eq!(in_the_record(&server), before, "nothing half-written");
}

#[test]
fn the_form_comes_back_with_what_was_typed() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let link = &server.client_links()[0];
    let before = in_the_record(&server);
    let page = client.get(link);
    let id = page.hidden("wish_id");
    // The form begins with the first good day that the page names.
    let good = page.hidden("date_1");
    assert!(
        good > day(7).to_string() && good < day(120).to_string(),
        "{good}"
    );
    let fields = |second: &str| {
        client.post(
            &format!("{link}/wishes"),
            &[
                ("wish_id", id.as_str()),
                ("date_1", ""),
                ("time_1", ""),
                ("date_2", second),
                ("time_2", "09:15"),
                ("date_3", ""),
                ("time_3", ""),
                ("wish_words", "Typed <with> care."),
                ("wish_reach", "0123"),
            ],
        )
    };
    let past = day(-1).to_string();
    let answer = fields(&past);
    assert_eq!(answer.status, 422);
    assert!(answer.text().contains(&say("fault.wish_past")));
    assert!(
        answer.body.contains("id=\"fault-date_2\""),
        "beside its own row"
    );
    let words = answer.hidden("wish_words");
    let words = words.replace("&#60;", "<").replace("&#62;", ">");
    assert_eq!(words, "Typed <with> care.");
    assert_eq!(answer.hidden("wish_reach"), "0123");
    assert_eq!(answer.hidden("date_2"), past);
    assert_eq!(answer.hidden("time_2"), "09:15");
    assert_eq!(answer.hidden("date_1"), "", "no day that was not asked for");
    assert_eq!(answer.hidden("wish_id"), id, "the same wish, still");
    let refused = fields("next Tuesday");
    assert!(refused.text().contains(&say("fault.date")));
    assert_eq!(in_the_record(&server), before);

    assert!(fields(&day(9).to_string()).location().ends_with("#wish"));
    fields(&day(9).to_string()).location();
    assert_eq!(in_the_record(&server), before + 1, "a second tap");
    fields(&day(10).to_string()).location();
    assert_eq!(
        in_the_record(&server),
        before + 2,
        "changed after going back, it is another wish"
    );
    let foreign = client.post(&format!("{link}/wishes"), &[("colour", "red")]);
    assert_eq!(
        (foreign.status, foreign.header("content-type")),
        (400, "text/html; charset=utf-8")
    );
}

#[test]
fn new_wishes_are_limited_and_reports_are_not_held_back_by_them() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let link = &server.client_links()[0];
    let ids: Vec<Uuid> = (0..15).map(|_| Uuid::new_v4()).collect();
    let put = |id: &Uuid| client.put(&format!("{link}/wishes/{id}"), &wish(&id.to_string()));
    let statuses: Vec<u16> = ids.iter().map(|id| put(id).status).collect();
    let refused = statuses
        .iter()
        .position(|status| *status == 429)
        .expect("a limit");
    assert!(refused >= 10, "{statuses:?}");
    let answer = put(&ids[refused]);
    assert_eq!(answer.status, 429);
    let wait = answer.header("retry-after").parse::<u32>();
    assert!(wait.is_ok_and(|seconds| seconds > 0));
    // What was taken is acknowledged again whatever the limit says; a report and another client are not held back.
    assert_eq!(put(&ids[0]).status, 200);
    let report = tests::report::report("");
    let path = format!("{link}/reports/{}", Uuid::new_v4());
    assert_eq!(client.put(&path, &report).status, 201);
    let other = format!("{}/wishes/{}", server.client_links()[1], Uuid::new_v4());
    assert_eq!(client.put(&other, &wish("x")).status, 201);
}

#[test]
fn a_closed_link_takes_no_wish() {
    let server = Server::demo();
    let artist = Visitor::demo_artist(&server);
    let client = Visitor::at(&server);
    let link = &server.client_links()[0];
    let today = artist.get("/studio").body;
    let visit = today
        .split("/studio/visits/")
        .skip(1)
        .filter_map(|rest| rest.get(..36))
        .find(|id| Uuid::parse_str(id).is_ok())
        .expect("a visit");
    artist
        .post_signed("/studio", &format!("/studio/visits/{visit}/revoke"), &[])
        .location();
    let refused = client.put(&format!("{link}/wishes/{}", Uuid::new_v4()), &wish("x"));
    assert_eq!(
        (refused.status, refused.header("content-type")),
        (410, "application/problem+json")
    );
    let fields = [("date_1", day(9).to_string())];
    let fields = fields
        .each_ref()
        .map(|(name, value)| (*name, value.as_str()));
    let plain = client.post(&format!("{link}/wishes"), &fields);
    assert_eq!(plain.status, 410);
    assert!(plain.text().contains("020 7946 0417"));
}

#[test]
fn the_artist_takes_a_time_and_the_client_reads_it() {
    let server = Server::demo();
    let artist = Visitor::demo_artist(&server);
    let client = Visitor::at(&server);
    let link = &server.client_links()[0];
    let waiting = || count(&server, "select count(*) from waiting_wishes");
    let before = waiting();
    let id = send(&server, "After work.");
    assert_eq!(waiting(), before + 1);
    let screen = format!("/studio/wishes/{id}");
    for list in ["/studio", "/studio/wishes"] {
        assert!(artist.get(list).body.contains(&screen), "{list}");
    }
    let shown = artist.get(&screen);
    for part in [
        &format!("{}, 14:30", written(day(9))),
        &written(day(12)),
        "After work.",
        "Noor",
        "Velm soft wax",
    ] {
        assert!(shown.text().contains(part), "{part}: {}", shown.text());
    }
    // Not without being signed in, nor without the token, nor from elsewhere.
    let answer = format!("{screen}/answer");
    let take = [("take", "1"), ("time_1", "14:30")];
    let events = || count(&server, "select count(*) from wish_events");
    let none = events();
    assert_eq!(client.post(&answer, &take).location(), "/studio/sign-in");
    assert_eq!(artist.post(&answer, &take).status, 403);
    let foreign = artist.post_with(&answer, &take, &[("sec-fetch-site", "cross-site")]);
    assert_eq!(foreign.status, 403);
    assert_eq!(events(), none);

    // Where the client left the time open the studio has to say it; a choice that is none is refused.
    let refused = artist.post_signed(&screen, &answer, &[("take", "2"), ("time_2", "")]);
    assert_eq!(refused.status, 422);
    assert!(refused.text().contains(&say("fault.time")) && refused.body.contains("fault-time_2"));
    let none_such = artist.post_signed(&screen, &answer, &[("take", "3"), ("time_3", "10:00")]);
    assert_eq!(none_such.status, 422);
    assert!(none_such.text().contains(&say("fault.agreed_which")));
    let empty = artist.post_signed(&screen, &answer, &[("text", "  ")]);
    assert!(empty.status == 422 && empty.text().contains(&say("fault.answer_empty")));
    let (past, answer_id) = (day(-1).to_string(), shown.hidden("answer_id"));
    let late = [
        ("text", "See you"),
        ("date", past.as_str()),
        ("time", "10:00"),
    ];
    let late = artist.post_signed(&screen, &answer, &late);
    assert!(late.status == 422 && late.text().contains(&say("fault.agreed_past")));
    assert!(late.text().contains("See you"), "what was typed is kept");
    assert_eq!(events(), none);

    // One tap, or the same twice.
    for _ in 0..2 {
        let take = [
            ("answer_id", answer_id.as_str()),
            ("take", "1"),
            ("time_1", "14:30"),
        ];
        artist.post_signed(&screen, &answer, &take).location();
    }
    assert_eq!(events(), none + 1, "tapped twice, it is one answer");
    assert_eq!(waiting(), before, "what is agreed waits no longer");
    let agreed = format!("{}, 14:30", written(day(9)));
    let says = say("client.wish.agreed").replace("{when}", &agreed);
    let page = client.get(link).text();
    assert_eq!(
        page.matches(&says).count(),
        2,
        "at the top and with the wish: {page}"
    );
    let standing = client.get(&format!("{link}/standing")).json();
    assert_eq!(standing["wishes"][0]["agreed"], *agreed);
    let at = count(
        &server,
        "select max(agreed_at) / 1000 from wish_events where wish in (select id from wishes order by rowid desc limit 1)",
    );
    let expected = day(9).at(14, 30, 0, 0).in_tz("Europe/London");
    let expected = expected.expect("an instant");
    assert_eq!(at, expected.timestamp().as_second());

    // Called off, it holds no longer, and the wish waits again; then another time and words are agreed on.
    artist
        .post_signed(&screen, &format!("{screen}/call-off"), &[])
        .location();
    let page = client.get(link).text();
    let off = say("wish.called_off").replace("{when}", &agreed);
    assert!(!page.contains(&says) && page.contains(&off), "{page}");
    assert_eq!(waiting(), before + 1);
    let date = day(13).to_string();
    let fields = [
        ("text", "I moved you."),
        ("date", date.as_str()),
        ("time", "16:00"),
    ];
    artist.post_signed(&screen, &answer, &fields).location();
    let page = client.get(link).text();
    let moved =
        say("client.wish.agreed").replace("{when}", &format!("{}, 16:00", written(day(13))));
    assert!(
        page.contains(&moved) && page.contains("I moved you."),
        "{page}"
    );
}

#[test]
fn words_alone_leave_a_wish_waiting_until_it_is_settled() {
    let server = Server::demo();
    let artist = Visitor::demo_artist(&server);
    let client = Visitor::at(&server);
    let link = &server.client_links()[0];
    let before = count(&server, "select count(*) from waiting_wishes");
    let screen = format!("/studio/wishes/{}", send(&server, ""));
    let answer = [(
        "text",
        "All taken, I am sorry. Could you do the week after?",
    )];
    artist
        .post_signed(&screen, &format!("{screen}/answer"), &answer)
        .location();
    let page = client.get(link).text();
    assert!(
        page.contains("All taken, I am sorry.") && page.contains("Ilse Marend answered"),
        "{page}"
    );
    assert!(!page.contains(say("client.wish.agreed").split('{').next().expect("words")));
    let waiting = || count(&server, "select count(*) from waiting_wishes");
    assert_eq!(waiting(), before + 1);
    let settle = artist.post_signed(&screen, &format!("{screen}/settle"), &[]);
    assert_eq!(settle.location(), "/studio/wishes");
    assert_eq!(waiting(), before);
    assert!(
        client
            .get(link)
            .text()
            .contains(&say("client.reports.settled"))
    );
    artist
        .post_signed(&screen, &format!("{screen}/reopen"), &[])
        .location();
    assert_eq!(waiting(), before + 1);
    assert!(
        !client
            .get(link)
            .text()
            .contains(&say("client.reports.settled"))
    );
}

/// What happened is appended: the record itself refuses to overwrite it.
#[test]
fn the_record_overwrites_no_wish() {
    let server = Server::demo();
    let record = server.home.record();
    for change in [
        "update wishes set words = 'other'",
        "update wish_events set text = 'other'",
    ] {
        let refused = record.execute(change, []).expect_err(change).to_string();
        assert!(refused.contains("never overwritten"), "{refused}");
    }
    let unsaid = "insert into wish_events select randomblob(16), wish, 'settled', at, made_by, '', at from wish_events limit 1";
    assert!(
        record.execute(unsaid, []).is_err(),
        "only an answer agrees to a time"
    );
}
