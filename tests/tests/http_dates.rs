//! A date to look one's best for: given, planned back from, changed, taken back; and the calendar file beside it.

use jiff::{Timestamp, ToSpan, civil};
use reqwest::Method;
use tests::{
    server::{Home, Server},
    visitor::{Answer, Visitor},
    words::say,
};

/// The demo's clients by their links: who has just been there, and who has given a date.
const NEW: usize = 0;
const WITH_DATE: usize = 4;

/// The date at the demo studio.
fn today() -> civil::Date {
    let studio = Timestamp::now().in_tz("Europe/London");
    studio.expect("a zone").date()
}

fn in_days(days: i64) -> String {
    today().saturating_add(days.days()).to_string()
}

fn give(client: &Visitor, link: &str, date: &str) -> Answer {
    client.post(&format!("{link}/occasion"), &[("date", date)])
}

/// Every row of the visit of a demo client's, oldest first.
fn rows(server: &Server, client: usize) -> Vec<Option<String>> {
    let record = server.home.record();
    let mut statement = record
        .prepare("select date from occasions where visit = ?1 order by rowid")
        .expect("a statement");
    let visit = uuid::Uuid::parse_str(&visit(client)).expect("an id");
    let rows = statement.query_map([visit], |row| row.get(0));
    rows.expect("rows").map(|row| row.expect("a row")).collect()
}

fn visit(client: usize) -> String {
    format!("00000000-0000-8000-8000-00020000000{}", client + 1)
}

#[test]
fn a_date_is_planned_back_from_changed_and_taken_back() {
    let server = Server::demo();
    let (client, artist) = (Visitor::at(&server), Visitor::demo_artist(&server));
    let link = &server.client_links()[NEW];
    let screen = format!("/studio/visits/{}", visit(NEW));
    assert!(client.get(link).text().contains(&say("dates.ask")));
    assert!(!artist.get(&screen).text().contains("has a date on"));

    // Day 40 after a wax and a tint: within the days that are good for both.
    let (first, second) = (in_days(40), in_days(47));
    let given = give(&client, link, &first);
    assert!(given.location().ends_with("#dates"));
    // The page was drawn and kept a moment ago; what is shown now is new all the same.
    let page = client.get(link).text();
    for shown in [
        "Come to the studio",
        "Most artists say 2 to 3 days before is best.",
        &say("dates.change"),
        &say("dates.remove"),
    ] {
        assert!(page.contains(shown), "{shown}: {page}");
    }
    // In order: the retinoid a week before, the skin test two whole days before, the sunbed on the day before.
    let steps = [
        "Stop using retinol",
        "Ask your artist for a skin test",
        "No sunbathing or sunbed in",
    ];
    let plan = page.split("Come to the studio").nth(1).expect("a plan");
    let places = steps.map(|step| plan.find(step).unwrap_or_else(|| panic!("{step}: {plan}")));
    assert!(places.is_sorted(), "{plan}");
    assert!(artist.get(&screen).text().contains("Noor has a date on"));

    give(&client, link, &first).location();
    give(&client, link, &second).location();
    let taken_back = [("date", second.as_str()), ("remove", "yes")];
    client
        .post(&format!("{link}/occasion"), &taken_back)
        .location();
    client
        .post(&format!("{link}/occasion"), &taken_back)
        .location();
    assert_eq!(
        rows(&server, NEW),
        [Some(first), Some(second), None],
        "appended, and nothing twice"
    );
    let page = client.get(link).text();
    assert!(page.contains(&say("dates.ask")) && !page.contains(&say("dates.remove")));
    assert!(!artist.get(&screen).text().contains("has a date on"));
    let overwritten = server
        .home
        .record()
        .execute("update occasions set date = null", []);
    assert!(overwritten.is_err_and(|e| e.to_string().contains("never overwritten")));
}

#[test]
fn a_date_that_cannot_be_met_says_why() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let link = &server.client_links()[NEW];
    let said = |days: i64, trouble: &str| {
        give(&client, link, &in_days(days)).location();
        let sentence = say(&format!("occasion.trouble.{trouble}"));
        let page = client.get(link).text();
        let part = sentence.split('{').next().expect("a beginning");
        assert!(page.contains(part), "{days} days on: {part}: {page}");
    };
    said(0, "no_day_left");
    said(10, "soon_after");
    said(10, "too_soon");
    // Day 48: the visit is later than is usual for the tint, and too soon for another in between.
    said(48, "late");
    give(&client, link, &in_days(200)).location();
    let page = client.get(link).text();
    assert!(page.contains("Come once before it,"), "{page}");

    // Somebody who was here 31 days ago, with a date in four: no time is left for the skin test, nor to leave retinol.
    let other = &server.client_links()[5];
    give(&client, other, &in_days(4)).location();
    let page = client.get(other).text();
    let none_left = say("occasion.trouble.no_time").replace("{studio}", "Tamsel Lane Brows");
    let none_left = none_left.split('{').next().expect("a beginning");
    // Three on a day whose next days are closed: then there is not a day left without the sun, either.
    assert!(page.matches(none_left).count() >= 2, "{page}");
}

#[test]
fn what_cannot_be_taken_comes_back_with_what_was_typed() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let link = &server.client_links()[NEW];
    for (typed, fault) in [
        ("", "fault.required"),
        ("   ", "fault.required"),
        ("24.12.2026", "fault.date"),
        ("2026-02-30", "fault.date"),
        (&in_days(-1), "occasion.fault.past"),
        (&in_days(740), "occasion.fault.far"),
    ] {
        let answer = give(&client, link, typed);
        assert_eq!(answer.status, 422, "{typed}");
        assert!(
            answer.text().contains(&say(fault)),
            "{typed}: {}",
            answer.text()
        );
        let kept = format!("value=\"{}\"", typed.trim());
        assert!(answer.body.contains(&kept), "{typed}");
        let form = answer
            .body
            .split("<details")
            .find(|part| part.contains("name=\"date\""));
        assert!(
            form.is_some_and(|part| part.starts_with(" open")),
            "the form is not folded away"
        );
    }
    let colour = client.post(
        &format!("{link}/occasion"),
        &[("date", &in_days(9)), ("colour", "red")],
    );
    assert_eq!(colour.status, 400);
    assert_eq!(rows(&server, NEW), [None; 0]);
    // A refusal leaves the date that was given before.
    let link = &server.client_links()[WITH_DATE];
    assert_eq!(give(&client, link, "").status, 422);
    assert_eq!(rows(&server, WITH_DATE).len(), 1);
}

#[test]
fn the_calendar_is_sent_as_phones_take_it() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let link = &server.client_links()[WITH_DATE];
    let way = client.get(&format!("{link}/calendar"));
    let path = way.location();
    assert_eq!(
        format!("{}{path}", server.address),
        format!("{link}/calendar.ics")
    );
    let file = client.get(path);
    assert_eq!(file.status, 200);
    for (name, value) in [
        (
            "content-type",
            "text/calendar; charset=utf-8; method=PUBLISH",
        ),
        ("content-disposition", "inline; filename=\"visit.ics\""),
        ("cache-control", "private, no-store"),
        ("referrer-policy", "no-referrer"),
        ("x-robots-tag", "noindex, nofollow"),
        ("x-content-type-options", "nosniff"),
    ] {
        assert_eq!(file.header(name), value, "{name}");
    }
    let secret = path
        .trim_start_matches("/MY/")
        .split('/')
        .next()
        .expect("a secret");
    let unfolded = file.body.replace("\r\n ", "");
    assert!(!unfolded.contains(secret) && !unfolded.contains("/MY/"));
    assert!(unfolded.contains("Tamsel Lane Brows · 020 7946 0417"));

    let page = client.get(link).body;
    assert!(page.contains(&format!(
        "href=\"{}/calendar\"",
        path.trim_end_matches("/calendar.ics")
    )));
    let web = page.split("href=\"https://calendar.google.com/").nth(1);
    let web = web
        .and_then(|rest| rest.split('"').next())
        .expect("a link to the web calendar");
    assert!(
        web.contains("action=TEMPLATE") && web.contains("dates="),
        "{web}"
    );
    assert!(!web.contains(secret), "{web}");
}

fn property<'a>(file: &'a str, name: &str) -> Vec<&'a str> {
    let lines = file.split("\r\n");
    lines
        .filter_map(|line| line.strip_prefix(name)?.strip_prefix(':'))
        .collect()
}

/// RFC 5545 sections 3.8.4.7 and 3.8.7.4: an entry keeps its id, and its sequence rises when it changes.
#[test]
fn entries_keep_their_ids_and_their_sequence_rises_with_each_change() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let link = &server.client_links()[NEW];
    let file = || client.get(&format!("{link}/calendar.ics")).body;
    let ids = |file: &str| {
        let mut ids: Vec<String> = property(file, "UID")
            .into_iter()
            .map(str::to_owned)
            .collect();
        ids.sort();
        ids
    };
    let sequence = |file: &str| -> u32 {
        let all = property(file, "SEQUENCE");
        assert!(
            !all.is_empty() && all.iter().all(|one| *one == all[0]),
            "{file}"
        );
        all[0].parse().expect("a number")
    };
    let (first, again) = (file(), file());
    assert_eq!(
        (ids(&first), sequence(&first)),
        (ids(&again), sequence(&again))
    );

    give(&client, link, &in_days(40)).location();
    let with_date = file();
    assert_eq!(ids(&with_date), ids(&first));
    assert!(sequence(&with_date) > sequence(&first));
    client
        .post(&format!("{link}/occasion"), &[("remove", "yes")])
        .location();
    let without = file();
    assert!(sequence(&without) > sequence(&with_date));
    assert_eq!(
        property(&without, "DTSTART;VALUE=DATE"),
        property(&first, "DTSTART;VALUE=DATE")
    );
    assert_ne!(
        property(&with_date, "DTSTART;VALUE=DATE"),
        property(&first, "DTSTART;VALUE=DATE")
    );

    // The studio's name stands in every entry.
    server.home.record().execute_batch(
        "insert into studio_versions (made_at, name, phone, contact_email, region, time_zone, language)
         select made_at, 'Another Name', phone, contact_email, region, time_zone, language from studio_versions",
    ).expect("another name");
    let renamed = file();
    assert!(renamed.contains("Another Name") && sequence(&renamed) > sequence(&without));
}

#[test]
fn looking_at_a_calendar_changes_nothing_and_a_closed_link_has_none() {
    let server = Server::demo();
    let (client, artist) = (Visitor::at(&server), Visitor::demo_artist(&server));
    let link = &server.client_links()[NEW];
    let count = || -> i64 {
        let all = "select (select count(*) from occasions) + (select count(*) from link_events)";
        server
            .home
            .record()
            .query_row(all, [], |row| row.get(0))
            .expect("a count")
    };
    let before = count();
    for path in ["calendar", "calendar.ics"] {
        client.get(&format!("{link}/{path}"));
        client.ask(Method::HEAD, &format!("{link}/{path}"), &[], None);
    }
    assert_eq!(count(), before);
    assert_eq!(client.get(&format!("{link}/occasion")).status, 405);

    artist.post_signed(
        "/studio",
        &format!("/studio/visits/{}/revoke", visit(NEW)),
        &[],
    );
    for path in ["calendar", "calendar.ics"] {
        assert_eq!(client.get(&format!("{link}/{path}")).status, 410, "{path}");
    }
    assert_eq!(give(&client, link, &in_days(40)).status, 410);
    assert_eq!(rows(&server, NEW), [None; 0]);
}

/// Nobody else's page can give a date.
#[test]
fn another_site_cannot_give_a_date() {
    let server = Server::start(&Home::new(), &["--demo"]);
    let client = Visitor::at(&server);
    let link = &server.client_links()[NEW];
    let foreign = [("sec-fetch-site", "cross-site")];
    let date = in_days(40);
    let answer = client.post_with(&format!("{link}/occasion"), &[("date", &date)], &foreign);
    assert_eq!(answer.status, 403);
    assert_eq!(rows(&server, NEW), [None; 0]);
}
