//! How the studio works: set by the artist, kept as versions, followed by the next visits and by no earlier one.

#![cfg(test)]

use tests::{
    begin::link_on,
    server::Server,
    visit_form::send_and_look,
    visitor::{Answer, Visitor},
    words::{say, say_in},
};

const PRACTICE: &str = "/studio/practice";
const PARTICULARS: &str = "/studio/particulars";

/// Sends the form as it stands, with some fields in another way.
fn save(artist: &Visitor, change: &[(&str, &str)]) -> Answer {
    let mut fields = vec![("prefers", "balanced")];
    fields.retain(|(name, _)| !change.iter().any(|(changed, _)| changed == name));
    fields.extend(change);
    artist.post_signed("/studio", PRACTICE, &fields)
}

/// Records a visit now and gives the text of its screen.
fn visit(artist: &Visitor, treatments: &[&str]) -> (String, String) {
    let page = artist.get("/studio/visits/new");
    let mut fields = vec![
        ("visit_id", page.hidden("visit_id")),
        ("client", String::new()),
        ("first_name", "Ottoline".to_owned()),
        ("reach", "07700 900999".to_owned()),
        ("date", page.hidden("date")),
        ("time", page.hidden("time")),
    ];
    fields.extend(
        treatments
            .iter()
            .map(|one| ("treatments", (*one).to_owned())),
    );
    let fields: Vec<(&str, &str)> = fields
        .iter()
        .map(|(name, value)| (*name, value.as_str()))
        .collect();
    let place = send_and_look(artist, &fields).location().to_owned();
    let text = artist.get(&place).text();
    (place, text)
}

/// The frozen plan of the visit at an address.
fn plan(server: &Server, place: &str) -> serde_json::Value {
    let id: uuid::Uuid = place
        .rsplit('/')
        .next()
        .and_then(|id| id.parse().ok())
        .expect("a visit's id");
    let body: String = server
        .home
        .record()
        .query_row(
            "select body from advice where visit = ?1 and language = 'en'",
            [id],
            |row| row.get(0),
        )
        .expect("its advice");
    serde_json::from_str::<serde_json::Value>(&body).expect("JSON")["plan"].take()
}

#[test]
fn the_next_visit_follows_what_was_set_and_the_last_one_does_not() {
    let server = Server::demo();
    let artist = Visitor::demo_artist(&server);
    assert_eq!(
        save(&artist, &[]).location(),
        PRACTICE,
        "everything cleared"
    );
    let (before, told_before) = visit(&artist, &["brow_wax"]);
    let frozen = plan(&server, &before);
    assert!(!told_before.contains("your artist’s own time"));

    let own = [
        ("best_brow_wax", "6"),
        ("unit_brow_wax", "weeks"),
        ("closed", "sunday"),
    ];
    assert_eq!(save(&artist, &own).location(), PRACTICE);
    let (after, told) = visit(&artist, &["brow_wax"]);
    assert!(told.contains("your artist’s own time"), "{told}");
    let window = plan(&server, &after)["next_visit"]["windows"][0].take();
    let date = |value: &serde_json::Value| -> chrono::NaiveDate {
        value
            .as_str()
            .and_then(|text| text.parse().ok())
            .expect("a date")
    };
    let usual = &window["usual"];
    assert_eq!(window["reason"], "own");
    assert_eq!(usual["best"], frozen["next_visit"]["windows"][0]["best"]);
    let moved = (date(&window["best"]) - date(&usual["best"])).num_days();
    assert!(moved > 0, "six weeks are later than the hair: {window}");
    // Both are said, and the earlier visit is as it was.
    let said = told
        .split("your artist’s own time; by the hair alone, ")
        .nth(1);
    assert!(said.is_some(), "{told}");
    assert_eq!(plan(&server, &before), frozen);
    assert!(!artist.get(&before).text().contains("artist’s own time"));
}

#[test]
fn the_form_shows_what_holds_and_saving_it_again_adds_nothing() {
    let server = Server::demo();
    let artist = Visitor::demo_artist(&server);
    let own = [
        ("prefers", "colour_kept"),
        ("closed", "monday"),
        ("closed", "tuesday"),
        ("earliest_brow_tint", "30"),
        ("latest_brow_tint", "40"),
        ("unit_brow_tint", "days"),
    ];
    save(&artist, &own).location();
    let versions = server.home.count("practice_versions");
    let page = artist.get(PRACTICE);
    let field = |name: &str| page.hidden(name);
    assert_eq!(
        (
            field("earliest_brow_tint"),
            field("latest_brow_tint"),
            field("best_brow_tint")
        ),
        ("30".to_owned(), "40".to_owned(), String::new())
    );
    let chosen = |value: &str| {
        let tag = page
            .body
            .split("<input ")
            .find(|tag| tag.contains(&format!("value=\"{value}\"")));
        tag.and_then(|tag| tag.split('>').next())
            .is_some_and(|tag| tag.contains("checked"))
    };
    assert!(chosen("colour_kept") && chosen("monday") && chosen("tuesday"));
    assert!(!chosen("balanced") && !chosen("sunday"));
    assert!(page.text().contains("Last changed") && page.text().contains("Ilse Marend"));
    save(&artist, &own).location();
    assert_eq!(server.home.count("practice_versions"), versions);
    save(&artist, &[("closed", "sunday")]).location();
    assert_eq!(server.home.count("practice_versions"), versions + 1);
    let overwritten = server
        .home
        .record()
        .execute("update practice_versions set body = '{}'", []);
    assert!(overwritten.is_err(), "a version is never overwritten");
}

#[test]
fn what_cannot_be_taken_comes_back_with_a_sentence() {
    let server = Server::demo();
    let artist = Visitor::demo_artist(&server);
    let before = server.home.count("practice_versions");
    let days = say("fault.interval_days").replace("{most}", "366");
    let sooner = say("fault.interval_sooner").replace("{least}", "3 weeks");
    let every_day = [
        "monday",
        "tuesday",
        "wednesday",
        "thursday",
        "friday",
        "saturday",
        "sunday",
    ]
    .map(|day| ("closed", day));
    let changes: [(&[(&str, &str)], &str); 8] = [
        (&[("best_brow_wax", "four")], &say("fault.whole_number")),
        (&[("best_brow_wax", "4.5")], &say("fault.whole_number")),
        (&[("best_brow_wax", "60")], &days),
        (&[("best_brow_wax", "0"), ("unit_brow_wax", "days")], &days),
        (
            &[("earliest_brow_wax", "6"), ("latest_brow_wax", "5")],
            &say("fault.interval_order"),
        ),
        (&[("earliest_brow_wax", "2")], &sooner),
        (&[("prefers", "profit")], &say("fault.unknown_choice")),
        (&every_day, &say("fault.never_open")),
    ];
    for (change, said) in changes {
        let answer = save(&artist, change);
        assert_eq!(answer.status, 422, "{change:?}");
        assert!(
            answer.text().contains(said),
            "{change:?}: {}",
            answer.text()
        );
        for (field, value) in change
            .iter()
            .filter(|(field, _)| field.ends_with("_brow_wax") && !field.starts_with("unit"))
        {
            assert_eq!(answer.hidden(field), *value, "what was typed stays");
        }
    }
    assert_eq!(save(&artist, &[("colour", "red")]).status, 400);
    assert_eq!(
        server.home.count("practice_versions"),
        before,
        "nothing half-written"
    );
    // Told once, it can be meant: then clients read that it is the artist's own, and that most wait longer.
    let meant = save(
        &artist,
        &[
            ("earliest_brow_wax", "2"),
            ("best_brow_wax", "3"),
            ("sooner_brow_wax", "yes"),
        ],
    );
    assert_eq!(meant.location(), PRACTICE);
    let (_, told) = visit(&artist, &["brow_wax"]);
    assert!(
        told.contains("Most artists wait longer, at least until"),
        "{told}"
    );
}

#[test]
fn the_studios_details_change_and_their_history_stays() {
    let server = Server::demo();
    let artist = Visitor::demo_artist(&server);
    let client = Visitor::at(&server);
    let link = server.client_links()[0].clone();
    assert!(client.get(&link).text().contains("Tamsel Lane Brows"));
    let before = server.home.count("studio_versions");
    let page = artist.get(PARTICULARS);
    assert_eq!(page.hidden("studio_name"), "Tamsel Lane Brows");
    let send = |change: &[(&str, &str)]| {
        let mut fields = vec![
            ("studio_name", "Tamsel Lane Brows and Lashes"),
            ("phone", "020 7946 0418"),
            ("contact_email", ""),
            ("region", "eu"),
            ("time_zone", "Europe/Dublin"),
        ];
        fields.retain(|(name, _)| !change.iter().any(|(changed, _)| changed == name));
        fields.extend(change);
        artist.post_signed("/studio", PARTICULARS, &fields)
    };
    for (field, value, said) in [
        ("studio_name", " ", say("fault.required")),
        ("phone", "", say("fault.contact")),
        ("contact_email", "hello", say("fault.email")),
        ("region", "atlantis", say("fault.unknown_choice")),
        ("time_zone", "Europe/Atlantis", say("fault.unknown_choice")),
        ("language", "tlh", say("fault.unknown_choice")),
    ] {
        let answer = send(&[(field, value)]);
        assert_eq!(answer.status, 422, "{field}");
        assert!(answer.text().contains(&said), "{field}: {}", answer.text());
        assert!(field == "studio_name" || answer.body.contains("Tamsel Lane Brows and Lashes"));
    }
    assert_eq!(server.home.count("studio_versions"), before);
    assert_eq!(send(&[]).location(), PRACTICE);
    assert_eq!(send(&[]).location(), PRACTICE);
    assert_eq!(server.home.count("studio_versions"), before + 1);
    let now = client.get(&link).text();
    assert!(
        now.contains("Tamsel Lane Brows and Lashes") && now.contains("020 7946 0418"),
        "{now}"
    );
    // 112 is the European Union's number (European Commission), 999 was the United Kingdom's.
    assert!(now.contains("112") && !now.contains("999"));
    let by: String = server
        .home
        .record()
        .query_row(
            "select artists.name from studio_versions join artists on artists.id = made_by order by version desc limit 1",
            [],
            |row| row.get(0),
        )
        .expect("who changed it");
    assert_eq!(by, "Ilse Marend");

    // The artist's screens are in the studio's language; a client's page stays in the client's.
    assert_eq!(send(&[("language", "fr")]).location(), PRACTICE);
    let today = artist.get("/studio");
    assert!(today.body.contains("<html lang=\"fr\""));
    assert!(today.text().contains(&say_in("fr", "artist.today.title")));
    assert!(
        artist
            .get(PARTICULARS)
            .body
            .contains("value=\"fr\" checked")
    );
    assert!(client.get(&link).body.contains("<html lang=\"en\""));
}

#[test]
fn nobody_sets_it_without_being_signed_in() {
    let server = Server::demo();
    let stranger = Visitor::at(&server);
    let before = (
        server.home.count("practice_versions"),
        server.home.count("studio_versions"),
    );
    for path in [PRACTICE, PARTICULARS] {
        assert_eq!(stranger.get(path).location(), "/studio/sign-in");
        assert_eq!(
            stranger.post(path, &[("prefers", "balanced")]).location(),
            "/studio/sign-in"
        );
    }
    // Signed in, but not from a screen of ours.
    let artist = Visitor::demo_artist(&server);
    let forged = artist.post(PRACTICE, &[("prefers", "balanced"), ("csrf", "guess")]);
    assert_ne!(forged.status, 303);
    assert_eq!(
        (
            server.home.count("practice_versions"),
            server.home.count("studio_versions")
        ),
        before
    );
}

#[test]
fn everyone_reads_why_then_and_what_else() {
    let server = Server::demo();
    let artist = Visitor::demo_artist(&server);
    let (place, told) = visit(&artist, &["brow_wax", "brow_tint"]);
    let waits = say("wait.can_wait").replace("{treatments}", "brow wax");
    // 0.082 of the hairs at four weeks, 0.40 in the eighth week (the regrowth fact sheet, tables 10.4 and 10.6).
    let tidy = say("rebook.tidy")
        .replace("{treatment}", "brow wax")
        .replace("{after}", "4 weeks")
        .replace("{share}", "about 1 in 10");
    let full = say("rebook.full")
        .replace("{after}", "8 weeks")
        .replace("{share}", "about 4 in 10");
    let each = say("artist.come_back.each");
    let link = link_on(&artist.get(&place));
    let client = Visitor::at(&server).get(&link).text();
    let slip = artist.get(&format!("{place}/hand-over")).text();
    for (whose, text) in [("artist", &told), ("client", &client), ("slip", &slip)] {
        for sentence in [&waits, &tidy, &full] {
            assert!(
                text.contains(sentence.as_str()),
                "{whose}, {sentence}: {text}"
            );
        }
        assert_eq!(text.contains(&each), whose != "slip", "{whose}");
    }
    // An aim is named where it decides, and only there.
    save(&artist, &[("prefers", "colour_kept")]).location();
    let aim = say("aim_why.colour_kept");
    let led = visit(&artist, &["brow_wax", "brow_tint"]).1;
    assert!(led.contains(&aim), "{led}");
    assert!(!visit(&artist, &["brow_wax"]).1.contains(&aim));
}
