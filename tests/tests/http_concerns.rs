//! Before the treatment: what stands against it is shown while the visit is entered, once; saving is never refused for
//! it; and what was shown and decided is kept, also where nothing was done.

#![cfg(test)]

use tests::{
    server::Server,
    visit_form::VisitForm,
    visitor::{Answer, Visitor},
    words::say,
};

const ODILE: &str = "00000000-0000-8000-8000-000100000003";

struct Studio {
    server: Server,
    artist: Visitor,
}

impl Studio {
    fn open() -> Self {
        let server = Server::demo();
        let artist = Visitor::demo_artist(&server);
        Self { server, artist }
    }

    /// The column of the consultation with this id.
    fn kept(&self, id: &str, column: &str) -> Option<String> {
        let id: uuid::Uuid = id.parse().expect("an id");
        let query = format!("select cast({column} as text) from consultations where id = ?1");
        let kept = self
            .server
            .home
            .record()
            .query_row(&query, [id], |row| row.get(0));
        kept.expect("a consultation")
    }
}

/// A concern's sentence about one treatment.
fn concern(id: &str, treatment: &str, n: &str) -> String {
    say(&format!("concern.{id}"))
        .replace("{treatments}", &say(&format!("treatment.{treatment}")))
        .replace("{n}", n)
}

/// American Academy of Dermatology: no waxing, eyebrows included, during isotretinoin and for 6 months after.
#[test]
fn it_is_shown_once_then_saved_and_kept_with_the_visit() {
    let studio = Studio::open();
    let form = VisitForm::fresh(&studio.artist);
    let before = (
        studio.server.home.count("visits"),
        studio.server.home.count("consultations"),
    );
    let tablets = ("findings", "oral_retinoid");
    let shown = form.send(&studio.artist, &[tablets]);
    assert_eq!(shown.status, 422);
    let leave_out = concern("oral_retinoid_wax", "brow_wax", "6");
    for text in [
        &say("fault.look_first"),
        &say("weight.leave_out"),
        &leave_out,
        &say("backing.regulator_or_health_service"),
        "American Academy of Dermatology, Waxing and isotretinoin",
        &say("artist.before.local"),
    ] {
        assert!(shown.text().contains(text), "{text}: {}", shown.text());
    }
    assert!(shown.body.contains("A note that took a while to write."));
    assert_eq!(
        (
            studio.server.home.count("visits"),
            studio.server.home.count("consultations")
        ),
        before
    );

    let seen = shown.hidden("concerns_seen");
    let again = [
        tablets,
        ("concerns_seen", seen.as_str()),
        ("decision", "changed_treatment"),
        ("decision_words", "Tweezed instead of waxing."),
    ];
    let place = format!("/studio/visits/{}", form.visit_id);
    assert_eq!(form.send(&studio.artist, &again).location(), place);
    assert_eq!(
        form.send(&studio.artist, &again).location(),
        place,
        "a second tap"
    );
    assert_eq!(
        (
            studio.server.home.count("visits"),
            studio.server.home.count("consultations")
        ),
        (before.0 + 1, before.1 + 1)
    );
    let other = [&again[..3], &[("decision_words", "Another reason.")]].concat();
    let other = form.send(&studio.artist, &other);
    assert!(
        other.text().contains(&say("fault.visit_recorded")),
        "{}",
        other.text()
    );

    let screen = studio.artist.get(&place).text();
    for text in [
        &leave_out,
        &say("decision.changed_treatment"),
        "Tweezed instead of waxing.",
        "by Ilse Marend",
    ] {
        assert!(screen.contains(text), "{text}: {screen}");
    }
    let concerns = studio.kept(&form.visit_id, "concerns").expect("concerns");
    assert!(
        concerns.contains("\"id\":\"oral_retinoid_wax\""),
        "{concerns}"
    );
    let changed = studio
        .server
        .home
        .record()
        .execute("update consultations set words = ''", []);
    assert!(changed.is_err(), "what was decided is never overwritten");
}

#[test]
fn without_a_word_it_is_saved_and_without_a_concern_it_is_not_asked() {
    let studio = Studio::open();
    let kept = studio.server.home.count("consultations");
    let form = VisitForm::fresh(&studio.artist);
    form.send(&studio.artist, &[]).location();
    assert_eq!(
        studio.server.home.count("consultations"),
        kept,
        "nothing stood against it"
    );

    let form = VisitForm::fresh(&studio.artist);
    let sunburn = ("findings", "recent_sun");
    let seen = form
        .send(&studio.artist, &[sunburn])
        .hidden("concerns_seen");
    // Another concern than those that were shown has not been seen.
    let news = form.send(
        &studio.artist,
        &[sunburn, ("findings", "cold_sore"), ("concerns_seen", &seen)],
    );
    assert_eq!(news.status, 422);
    assert!(news.text().contains(&concern("cold_sore", "brow_wax", "")));
    let seen = news.hidden("concerns_seen");
    // One that went away does not have to be seen again, and nothing has to be decided.
    let place = form
        .send(&studio.artist, &[sunburn, ("concerns_seen", &seen)])
        .location()
        .to_owned();
    assert_eq!(studio.kept(&form.visit_id, "decision"), None);
    let screen = studio.artist.get(&place).text();
    assert!(screen.contains(&say("artist.before.undecided")), "{screen}");
    assert!(screen.contains(&concern("recent_sun", "brow_wax", "24")));
}

#[test]
fn looking_changes_nothing() {
    let studio = Studio::open();
    let form = VisitForm::fresh(&studio.artist);
    let before = (
        studio.server.home.count("visits"),
        studio.server.home.count("consultations"),
    );
    let look = [
        ("look_up", "look"),
        ("first_name", ""),
        ("treatments", "-"),
        ("treatments", "brow_tint"),
        ("treatments", "lash_tint"),
        ("findings", "under_16"),
    ];
    let shown = form.send(&studio.artist, &look);
    assert_eq!(shown.status, 200);
    // The United Kingdom kept the rule of the European Union: no lash dye under 16.
    let text = shown.text();
    assert!(
        text.contains(&concern("lash_dye_under_16_kept", "lash_tint", "")),
        "{text}"
    );
    let place = |weight: &str| text.find(&say(&format!("weight.{weight}")));
    assert!(place("leave_out") < place("wait") && place("wait") < place("check_first"));
    assert_eq!(
        (
            studio.server.home.count("visits"),
            studio.server.home.count("consultations")
        ),
        before
    );
}

/// Day, textbook: a retinoid is stopped 5 to 7 days before waxing; seven are asked.
#[test]
fn a_retinoid_asks_when_it_was_stopped() {
    let studio = Studio::open();
    let form = VisitForm::fresh(&studio.artist);
    assert!(
        !studio
            .artist
            .get("/studio/visits/new")
            .body
            .contains("retinoid_stopped_days\"")
    );
    let send = |days: &str, seen: &str| {
        form.send(
            &studio.artist,
            &[
                ("findings", "topical_retinoid"),
                ("retinoid_stopped_days", days),
                ("concerns_seen", seen),
            ],
        )
    };
    let asked = send("", "");
    let waits = concern("retinoid_not_stopped", "brow_wax", "7");
    assert!(asked.text().contains(&waits) && asked.body.contains("retinoid_stopped_days\""));
    for days in ["six", "-1", "1.5"] {
        let mend = send(days, "");
        assert_eq!(mend.status, 422);
        assert!(mend.text().contains(&say("fault.stopped_days")), "{days}");
        assert_eq!(
            mend.hidden("retinoid_stopped_days"),
            days,
            "what was typed stays"
        );
    }
    let six = send("6", "");
    assert!(six.text().contains(&waits), "{}", six.text());
    let clears = say("consultation.clears");
    let clears = clears.split('{').next().expect("a beginning");
    assert!(
        six.text().contains(clears),
        "it is said from when on: {}",
        six.text()
    );
    // Seven are enough: nothing stands against it any more, and the seven days are kept.
    let place = send("7", "").location().to_owned();
    assert_eq!(
        studio
            .kept(&form.visit_id, "retinoid_stopped_days")
            .as_deref(),
        Some("7")
    );
    assert_eq!(
        studio.kept(&form.visit_id, "concerns").as_deref(),
        Some("[]")
    );
    let stopped = say("consultation.stopped.other").replace("{n}", "7");
    assert!(studio.artist.get(&place).text().contains(&stopped));
}

#[test]
fn a_treatment_put_off_is_kept_without_a_visit() {
    let studio = Studio::open();
    let before = (
        studio.server.home.count("visits"),
        studio.server.home.count("clients"),
        studio.server.home.count("links"),
    );
    let form = VisitForm::fresh(&studio.artist);
    let fields = [
        ("findings", "cold_sore"),
        ("decision", "put_off"),
        ("decision_words", "She comes back in two weeks."),
    ];
    let place = form.send(&studio.artist, &fields).location().to_owned();
    assert_eq!(place, format!("/studio/put-off/{}", form.visit_id));
    assert_eq!(
        form.send(&studio.artist, &fields).location(),
        place,
        "a second tap"
    );
    assert_eq!(
        (
            studio.server.home.count("visits"),
            studio.server.home.count("clients"),
            studio.server.home.count("links")
        ),
        (before.0, before.1 + 1, before.2)
    );
    let screen = studio.artist.get(&place);
    for text in [
        &concern("cold_sore", "brow_wax", ""),
        &say("decision.put_off"),
        "She comes back in two weeks.",
        "A note that took a while to write.",
        &say("finding.cold_sore"),
        "Ottoline",
    ] {
        assert!(screen.text().contains(text), "{text}: {}", screen.text());
    }
    // The same form does not become a visit, nor another reason.
    let visit = form.send(&studio.artist, &[]);
    assert!(
        visit.text().contains(&say("fault.visit_recorded")),
        "{}",
        visit.text()
    );
    let other = [&fields[..2], &[("decision_words", "No time.")]].concat();
    assert_eq!(form.send(&studio.artist, &other).status, 422);

    // It is known when she comes again, and stands beside her visit.
    let id = screen
        .body
        .split("/studio/visits/new?client=")
        .nth(1)
        .and_then(|rest| rest.get(..36))
        .expect("the client");
    let next = studio
        .artist
        .get(&format!("/studio/visits/new?client={id}"));
    let way = format!("href=\"{place}\"");
    assert!(next.body.contains(&way), "{}", next.text());
    let list = studio.artist.get("/studio/visits/new").body;
    assert!(
        list.contains("Ottoline · 07700 900999"),
        "she is in the list"
    );
    let visit = VisitForm::read(&next);
    let saved = visit.send_known(&studio.artist, &[]);
    assert!(studio.artist.get(saved.location()).body.contains(&way));
    // A visit has no screen of what was put off.
    let not_put_off = format!("/studio/put-off/{}", visit.visit_id);
    assert_eq!(studio.artist.get(&not_put_off).status, 404);
}

/// Common practice, no source: lamination never sooner than 6 weeks after the last.
#[test]
fn earlier_visits_count() {
    let studio = Studio::open();
    let send = |form: &VisitForm, change: &[(&str, &str)]| -> Answer {
        let all = [&[("treatments", "brow_lamination")], change].concat();
        form.send_known(&studio.artist, &all)
    };
    let first = VisitForm::of(&studio.artist, ODILE);
    let long_ago: jiff::civil::Date = first.date.parse().expect("a date");
    let long_ago = (long_ago - jiff::Span::new().days(41)).to_string();
    let no_test = "no_test:brow_lamination";
    send(&first, &[("date", &long_ago), ("concerns_seen", no_test)]).location();
    let second = VisitForm::of(&studio.artist, ODILE);
    let too_soon = send(&second, &[("concerns_seen", no_test)]);
    assert_eq!(too_soon.status, 422);
    let said = concern("set_again_too_soon", "brow_lamination", "42");
    assert!(too_soon.text().contains(&said), "{}", too_soon.text());
}

#[test]
fn what_cannot_be_taken_and_who_may_see() {
    let studio = Studio::open();
    let form = VisitForm::fresh(&studio.artist);
    let unknown = form.send(&studio.artist, &[("decision", "perhaps")]);
    assert!(unknown.text().contains(&say("fault.unknown_choice")));
    let long = "x".repeat(4001);
    let long = form.send(&studio.artist, &[("decision_words", &long)]);
    assert!(long.text().contains(&say("fault.too_long")));
    // Putting it off needs a client and a treatment too.
    let nobody = form.send(
        &studio.artist,
        &[("decision", "put_off"), ("first_name", "")],
    );
    assert_eq!(nobody.status, 422);
    let place = form
        .send(&studio.artist, &[("decision", "put_off")])
        .location()
        .to_owned();
    let text = studio.artist.get(&place).text();
    assert!(text.contains(&say("artist.before.stood_nothing")), "{text}");
    let stranger = Visitor::at(&studio.server);
    assert_eq!(stranger.get(&place).location(), "/studio/sign-in");
    assert_eq!(studio.artist.get("/studio/put-off/not-an-id").status, 404);
}

/// Makers of hair colour, usual direction for use: a skin test 48 hours before. That it is done again for another product is
/// common practice, no source.
#[test]
fn a_patch_test_in_the_record_counts() {
    let studio = Studio::open();
    let tint = |change: &[(&str, &str)]| -> Answer {
        let form = VisitForm::of(&studio.artist, ODILE);
        let all = [&[("treatments", "brow_tint")], change].concat();
        form.send_known(&studio.artist, &all)
    };
    let no_test = concern("no_test", "brow_tint", "48");
    let without = tint(&[]);
    assert!(without.text().contains(&no_test), "{}", without.text());

    let form = studio.artist.get("/studio/patch-tests/new");
    let put_on: jiff::civil::Date = form.hidden("date").parse().expect("a date");
    let put_on = (put_on - jiff::Span::new().days(3)).to_string();
    let test = studio.artist.post_signed(
        "/studio",
        "/studio/patch-tests/new",
        &[
            ("test_id", &form.hidden("test_id")),
            ("client", ODILE),
            ("date", &put_on),
            ("time", &form.hidden("time")),
            ("treatments", "brow_tint"),
            ("product", "Orrin tint, slate"),
            ("place", "behind_the_ear"),
        ],
    );
    let test = test.location().to_owned();
    let unread = tint(&[]).text();
    assert!(
        unread.contains(&concern("test_unread", "brow_tint", "")),
        "{unread}"
    );
    assert!(!unread.contains(&no_test));
    let id = uuid::Uuid::new_v4().to_string();
    let clear = [
        ("event_id", id.as_str()),
        ("outcome", "no_reaction"),
        ("words", ""),
    ];
    studio
        .artist
        .post_signed("/studio", &format!("{test}/read"), &clear)
        .location();
    let other = tint(&[("product_1", "Orrin tint, black")]).text();
    assert!(
        other.contains(&concern("product_changed", "brow_tint", "")),
        "{other}"
    );
    // The same product, and nothing stands against it any more.
    tint(&[("product_1", "orrin tint, SLATE")]).location();
}
