//! Patch tests through the real door: put on, looked at by the client, read by the artist, and never overwritten.

#![cfg(test)]

use chrono::{DateTime, TimeDelta, Utc};
use reqwest::Method;
use tests::{
    server::Server,
    visitor::{Answer, Visitor},
    words::{languages, say, say_in},
};
use uuid::Uuid;

/// A form of a new test, filled in for the new client Ottoline; the value `-` leaves a field out.
fn put_on(artist: &Visitor, change: &[(&str, &str)]) -> Answer {
    let form = artist.get("/studio/patch-tests/new");
    let (id, date, time) = (
        form.hidden_or("test_id"),
        form.hidden_or("date"),
        form.hidden_or("time"),
    );
    let mut fields = vec![
        ("test_id", id.as_str()),
        ("client", ""),
        ("first_name", "Ottoline"),
        ("reach", "07700 900999"),
        ("date", &date),
        ("time", &time),
        ("treatments", "brow_tint"),
        ("product", "Orrin tint, slate"),
        ("batch", "OT5-031"),
        ("place", "behind_the_ear"),
        ("place_words", "left"),
        ("note", "A note that took a while to write."),
    ];
    fields.retain(|(name, _)| !change.iter().any(|(changed, _)| changed == name));
    fields.extend(change.iter().filter(|(_, value)| *value != "-"));
    artist.post_signed("/studio", "/studio/patch-tests/new", &fields)
}

trait Fields {
    fn hidden_or(&self, name: &str) -> String;
}

impl Fields for Answer {
    /// The value of a field, hidden or not.
    fn hidden_or(&self, name: &str) -> String {
        self.hidden(name)
    }
}

/// The link that the screen of a test shows.
fn link_on(screen: &Answer) -> String {
    let tag = screen
        .body
        .split("<input ")
        .find(|tag| tag.contains("id=\"link\""))
        .expect("a link");
    let value = tag
        .split("value=\"")
        .nth(1)
        .and_then(|rest| rest.split('"').next());
    value.expect("its address").to_owned()
}

fn answer(client: &Visitor, link: &str, change: &[(&str, &str)]) -> Answer {
    let page = client.get(link);
    let (id, consent) = (page.hidden("answer_id"), page.hidden("consent"));
    let mut fields = vec![
        ("answer_id", id.as_str()),
        ("noticed", "something"),
        ("words", "It itches."),
        ("consent", &consent),
    ];
    fields.retain(|(name, _)| !change.iter().any(|(changed, _)| changed == name));
    fields.extend(change.iter().filter(|(_, value)| *value != "-"));
    client.post(&format!("{link}/seen"), &fields)
}

#[test]
fn a_test_goes_all_the_way_round() {
    let server = Server::demo();
    let artist = Visitor::demo_artist(&server);
    let client = Visitor::at(&server);
    let way = put_on(&artist, &[]).location().to_owned();
    let screen = artist.get(&way);
    assert_eq!(screen.status, 200);
    for shown in [
        "Ottoline",
        "Orrin tint, slate",
        "OT5-031",
        "behind the ear, left",
        "A note that took",
    ] {
        assert!(screen.text().contains(shown), "{shown}: {}", screen.text());
    }
    let qr = artist.get(&format!("{way}/qr.svg"));
    assert_eq!(
        (qr.status, qr.header("content-type")),
        (200, "image/svg+xml")
    );

    // The client's page: three times, no script, nothing kept by anybody between.
    let link = link_on(&screen);
    let page = client.get(&link);
    assert_eq!(page.status, 200);
    assert_eq!(page.header("cache-control"), "private, no-store");
    assert!(!page.body.contains("<script"), "nothing moves on it");
    for shown in [
        "after 24 hours",
        "after 48 hours",
        "after 72 hours",
        "behind the ear, left",
        "brow tint",
        "999",
    ] {
        assert!(page.text().contains(shown), "{shown}: {}", page.text());
    }
    assert!(
        !page.text().contains("A note that took"),
        "the artist's note is the artist's"
    );
    assert!(!page.text().contains("OT5-031"));

    // What the client sees arrives, on the test and on the first screen.
    answer(&client, &link, &[]).location();
    let page = client.get(&link).text();
    let (now, told) = (
        page.find(&say("patch_test.react.now")),
        page.find("It itches."),
    );
    assert!(
        now.expect("what to do") < told.expect("what was told"),
        "first what to do: {page}"
    );
    assert!(artist.get(&way).text().contains("It itches."));
    let today = artist.get("/studio").text();
    assert!(
        today.contains("Ottoline") && today.contains(&say("artist.patch_tests.said_something")),
        "{today}"
    );

    // The artist reads it; the client sees that.
    let read = artist.get(&way).hidden("event_id");
    for _ in 0..2 {
        let fields = [
            ("event_id", read.as_str()),
            ("outcome", "reacted"),
            ("words", "A red patch."),
        ];
        artist
            .post_signed("/studio", &format!("{way}/read"), &fields)
            .location();
    }
    let screen = artist.get(&way).text();
    assert_eq!(
        screen.matches("A red patch.").count(),
        1,
        "a second tap adds nothing: {screen}"
    );
    assert!(screen.contains("It stands at: reacted."), "{screen}");
    assert!(client.get(&link).text().contains("noted"));
    assert!(
        !client.get(&link).text().contains("A red patch."),
        "words for the record stay there"
    );
    assert!(
        !artist.get("/studio").text().contains("Ottoline"),
        "it waits no longer"
    );
    // A correction is another reading; both stay.
    artist
        .post_signed(
            "/studio",
            &format!("{way}/read"),
            &[
                ("event_id", &Uuid::new_v4().to_string()),
                ("outcome", "no_reaction"),
                ("words", "It was a scratch."),
            ],
        )
        .location();
    let screen = artist.get(&way).text();
    assert!(
        screen.contains("It stands at: no reaction.") && screen.contains("A red patch."),
        "{screen}"
    );
    // And a client who then sees something brings it back.
    answer(&client, &link, &[("words", "Now it swells.")]).location();
    assert!(artist.get("/studio").text().contains("Ottoline"));
}

/// The fact sheets' 24, 48 and 72 hours (trade; makers of hair colour; Sarma 2009, Indian J Dermatol 54:56), elapsed, from
/// the minute that the artist gave: as the page writes them, against chrono-tz's own reckoning.
#[test]
fn the_times_are_exact() {
    let server = Server::demo();
    let artist = Visitor::demo_artist(&server);
    let london = chrono_tz::Europe::London;
    let at = Utc::now() - TimeDelta::hours(5);
    let local = at.with_timezone(&london);
    let (date, time) = (
        local.format("%Y-%m-%d").to_string(),
        local.format("%H:%M").to_string(),
    );
    let way = put_on(&artist, &[("date", &date), ("time", &time)])
        .location()
        .to_owned();
    let page = Visitor::at(&server).get(&link_on(&artist.get(&way))).text();
    for hours in [24, 48, 72] {
        let look: DateTime<Utc> = at + TimeDelta::hours(hours);
        let text = look.with_timezone(&london).format("%A %H:%M").to_string();
        assert!(page.contains(&text), "{hours} h, {text}: {page}");
    }
}

#[test]
fn what_is_missing_is_said_and_nothing_that_was_typed_is_lost() {
    let server = Server::demo();
    let artist = Visitor::demo_artist(&server);
    let before = server.home.count("patch_tests");
    for (change, said) in [
        (&[("first_name", "")][..], say("fault.required")),
        (&[("product", " ")], say("fault.required")),
        (&[("treatments", "-")], say("fault.patch_treatments")),
        // No test goes before a wax.
        (&[("treatments", "brow_wax")], say("fault.unknown_choice")),
        (
            &[("place", "elsewhere"), ("place_words", "")],
            say("fault.patch_place"),
        ),
        (&[("place", "on the moon")], say("fault.unknown_choice")),
        (&[("date", "yesterday")], say("fault.date")),
    ] {
        let again = put_on(&artist, change);
        assert_eq!(again.status, 422, "{change:?}");
        assert!(again.text().contains(&said), "{change:?}: {}", again.text());
        assert!(
            again.body.contains("A note that took a while to write."),
            "{change:?}"
        );
    }
    assert_eq!(
        put_on(&artist, &[("colour", "red")]).status,
        400,
        "unknown fields are refused by name"
    );
    assert_eq!(server.home.count("patch_tests"), before);

    let client = Visitor::at(&server);
    let link = &server.patch_test_links()[0];
    let answers = server.home.count("patch_test_answers");
    for (change, said) in [
        (&[("noticed", "-")][..], say("fault.noticed")),
        (&[("consent", "-")], say("fault.consent")),
    ] {
        let again = answer(&client, link, change);
        assert_eq!(again.status, 422, "{change:?}");
        assert!(again.text().contains(&said), "{}", again.text());
        assert!(again.body.contains("It itches."), "{change:?}");
    }
    assert_eq!(answer(&client, link, &[("noticed", "a rash")]).status, 400);
    // What was typed stays in its field, whatever it holds.
    let words = "</textarea><script>alert(1)</script>";
    let again = answer(&client, link, &[("noticed", "-"), ("words", words)]);
    assert!(!again.body.contains("<script"), "{}", again.body);
    assert!(again.text().contains("alert(1)"));
    assert_eq!(server.home.count("patch_test_answers"), answers);
}

#[test]
fn sent_twice_is_kept_once() {
    let server = Server::demo();
    let artist = Visitor::demo_artist(&server);
    let client = Visitor::at(&server);
    let before = server.home.count("patch_tests");
    let id = Uuid::new_v4().to_string();
    let first = put_on(&artist, &[("test_id", &id)]).location().to_owned();
    let again = put_on(&artist, &[("test_id", &id)]);
    assert_eq!(again.location(), first);
    assert_eq!(server.home.count("patch_tests"), before + 1);
    // Another test under the same id is not taken for it, and can then be saved as another one.
    let other = put_on(
        &artist,
        &[("test_id", &id), ("product", "Orrin tint, nut brown")],
    );
    assert_eq!(other.status, 422);
    assert!(other.text().contains(&say("fault.patch_test_recorded")));
    assert_ne!(other.hidden("test_id"), id);

    let link = link_on(&artist.get(&first));
    let answer_id = Uuid::new_v4().to_string();
    for _ in 0..2 {
        answer(&client, &link, &[("answer_id", &answer_id)]).location();
    }
    // Going back, the form has a new id and the same words.
    answer(&client, &link, &[]).location();
    let held = "patch_test_answers where words = 'It itches.'";
    assert_eq!(server.home.count(held), 1);
    // Other words under the id of an earlier answer are another answer.
    answer(
        &client,
        &link,
        &[("answer_id", &answer_id), ("words", "It is worse.")],
    )
    .location();
    assert_eq!(
        server
            .home
            .count("patch_test_answers where words = 'It is worse.'"),
        1
    );
}

/// A client who had a test before the first visit is one client.
#[test]
fn whoever_was_tested_can_be_chosen_for_a_visit() {
    let server = Server::demo();
    let artist = Visitor::demo_artist(&server);
    put_on(&artist, &[]).location();
    let form = artist.get("/studio/visits/new");
    assert!(
        form.text().contains("Ottoline · 07700 900999"),
        "{}",
        form.text()
    );
}

#[test]
fn its_link_is_closed_alone_and_opens_nothing_else() {
    let server = Server::demo();
    let artist = Visitor::demo_artist(&server);
    let client = Visitor::at(&server);
    let links = server.patch_test_links();
    let visit = &server.client_links()[0];
    // What belongs to a visit's page is not there, and the other way round.
    for below in ["/reports", "/wishes", "/occasion", "/opened"] {
        assert_eq!(
            client.post(&format!("{}{below}", links[0]), &[]).status,
            404,
            "{below}"
        );
    }
    for below in ["/standing", "/calendar", "/print"] {
        assert_eq!(
            client.get(&format!("{}{below}", links[0])).status,
            404,
            "{below}"
        );
    }
    assert_eq!(client.post(&format!("{visit}/seen"), &[]).status, 404);
    // By hand, in small letters.
    let path = links[0].trim_start_matches(&server.address);
    let typed = client.get(&path.to_lowercase());
    assert_eq!((typed.status, typed.header("location")), (308, path));

    let way = put_on(&artist, &[]).location().to_owned();
    let link = link_on(&artist.get(&way));
    artist
        .post_signed("/studio", &format!("{way}/revoke"), &[])
        .location();
    let gone = client.get(&link);
    assert_eq!(gone.status, 410);
    assert!(
        gone.body.contains("/pkg/forget."),
        "the phone drops its copy"
    );
    assert!(!gone.text().contains("Ottoline"));
    assert_eq!(
        client
            .post(&format!("{link}/seen"), &[("noticed", "nothing")])
            .status,
        410
    );
    assert_eq!(artist.get(&format!("{way}/qr.svg")).status, 404);
    assert_eq!(
        client.get(&links[0]).status,
        200,
        "one link is closed alone"
    );
    for _ in 0..2 {
        artist
            .post_signed("/studio", &format!("{way}/link"), &[])
            .location();
    }
    let new = link_on(&artist.get(&way));
    assert_ne!(new, link);
    assert_eq!(
        (client.get(&link).status, client.get(&new).status),
        (410, 200)
    );

    // Withdrawn: it stays in the record, its page closes, and nothing more is taken for it.
    let missing = artist.post_signed("/studio", &format!("{way}/withdraw"), &[("why", "")]);
    assert_eq!(missing.status, 422);
    artist
        .post_signed(
            "/studio",
            &format!("{way}/withdraw"),
            &[("why", "It was somebody else.")],
        )
        .location();
    assert_eq!(client.get(&new).status, 410);
    let screen = artist.get(&way);
    assert!(
        screen.text().contains("It was somebody else."),
        "{}",
        screen.text()
    );
    for (below, fields) in [
        (
            "read",
            &[("event_id", ""), ("outcome", "reacted"), ("words", "")][..],
        ),
        ("link", &[]),
    ] {
        assert_eq!(
            artist
                .post_signed("/studio", &format!("{way}/{below}"), fields)
                .status,
            404,
            "{below}"
        );
    }
    assert!(!artist.get("/studio").text().contains("Ottoline"));
}

#[test]
fn a_link_runs_out_and_its_secret_is_in_no_log_and_no_record() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let link = server.patch_test_links()[0].clone();
    assert_eq!(client.get(&link).status, 200);
    answer(&client, &link, &[]).location();
    let secret = link.rsplit('/').next().expect("a secret");
    assert!(
        !server
            .home
            .output()
            .lines()
            .any(|line| line.contains(secret) && !line.contains("http")),
        "{}",
        server.home.output()
    );
    let record = server.home.record();
    let kept: i64 = record
        .query_row(
            "select count(*) from links where secret_hash = ?1 or hex(secret_hash) = hex(?1)",
            [secret.as_bytes()],
            |row| row.get(0),
        )
        .expect("a count");
    assert_eq!(kept, 0, "only its hash is kept");
    let refused = record.execute(
        "update links set expires_at = 0 where patch_test is not null",
        [],
    );
    assert!(refused.is_err(), "a link is never overwritten");
    for table in [
        "patch_tests set note = 'x'",
        "patch_test_events set words = 'x'",
        "patch_test_answers set words = 'x'",
    ] {
        let refused = record
            .execute(&format!("update {table}"), [])
            .expect_err("refused");
        assert!(
            refused.to_string().contains("never overwritten"),
            "{table}: {refused}"
        );
    }
    // As time alone would do it.
    record
        .execute_batch(
            "drop trigger links_stay; update links set expires_at = 1 where patch_test is not null",
        )
        .expect("an end");
    assert_eq!(client.get(&link).status, 410);
}

#[test]
fn the_studios_own_limit_is_kept() {
    let server = Server::demo();
    let artist = Visitor::demo_artist(&server);
    let limit = |days: &str| {
        let fields = [("prefers", "balanced"), ("patch_test_days", days)];
        artist.post_signed("/studio", "/studio/practice", &fields)
    };
    assert!(
        artist.get("/studio/practice").text().contains("182"),
        "what holds without one is said"
    );
    assert_eq!(limit("90").status, 303);
    assert_eq!(
        artist.get("/studio/practice").hidden("patch_test_days"),
        "90"
    );
    for (days, said) in [("0", "731"), ("732", "731"), ("soon", "whole number")] {
        let again = limit(days);
        assert_eq!(again.status, 422, "{days}");
        assert!(again.text().contains(said), "{days}: {}", again.text());
    }
}

/// As the phone asks for it, or as it was chosen on the page; the form that comes back is in that language too.
#[test]
fn its_page_is_read_in_every_language() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let link = &server.patch_test_links()[0];
    for tag in languages() {
        let headers = [("accept-language", tag.as_str())];
        let page = client.ask(Method::GET, link, &headers, None);
        for key in [
            "patch_test.look.title",
            "patch_test.react.wash",
            "client.emergency.faint",
        ] {
            let sentence = say_in(&tag, key);
            assert!(
                page.text().contains(&sentence),
                "{tag}, {key}: {}",
                page.text()
            );
        }
    }
    let chosen = Visitor::at(&server);
    chosen.get(&format!("{link}/in/es")).location();
    let title = say_in("es", "patch_test.look.title");
    assert!(
        chosen.get(link).text().contains(&title),
        "it is kept for this phone"
    );
    let again = answer(&chosen, link, &[("noticed", "-")]);
    let fault = say_in("es", "fault.noticed");
    assert!(again.text().contains(&fault), "{}", again.text());
    assert_eq!(client.get(&format!("{link}/in/tlh")).status, 404);
}
