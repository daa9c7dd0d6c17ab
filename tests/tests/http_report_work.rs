//! The artist at work on reports: the most urgent first, overdue by the studio's own times, seen, answered, what became of
//! it, and products that are not to be used again. Nothing that was noted is overwritten.

#![cfg(test)]

use chrono::{Duration, Utc};
use serde_json::{Value, json};
use tests::{
    server::Server,
    visit_form::VisitForm,
    visitor::{Answer, Visitor},
    words::say,
};
use uuid::Uuid;

const INBOX: &str = "/studio/reports";

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

    /// A report of the client with this link, with these answers; gives its address on the artist's side.
    fn report(&self, link: usize, answers: &Value, words: &str) -> String {
        let id = Uuid::new_v4();
        let report = json!({
            "answers": answers, "places": ["left_lid"], "words": words, "reach": "07700 900000",
            "consents": {"report": "2026-12", "photos": null, "supplier": null}, "told": null, "photos": 0
        });
        let link = &self.server.client_links()[link];
        let sent = Visitor::at(&self.server).put(&format!("{link}/reports/{id}"), &report);
        assert_eq!(sent.status, 201, "{}", sent.body);
        format!("{INBOX}/{id}")
    }

    fn send(&self, path: &str, fields: &[(&str, &str)]) -> Answer {
        self.artist.post_signed(INBOX, path, fields)
    }

    fn screen(&self, path: &str) -> String {
        self.artist.get(path).text()
    }
}

/// The ids in the order of the page's links.
fn order(page: &Answer, of: &[&str]) -> Vec<usize> {
    let mut places: Vec<(usize, usize)> = of
        .iter()
        .enumerate()
        .map(|(number, path)| {
            let way = format!("href=\"{path}\"");
            (
                page.body.find(&way).unwrap_or_else(|| panic!("no {path}")),
                number,
            )
        })
        .collect();
    places.sort_unstable();
    places.into_iter().map(|(_, number)| number).collect()
}

#[test]
fn the_most_urgent_comes_first_and_what_is_answered_goes_behind() {
    let studio = Studio::open();
    let mild = studio.report(0, &json!({"rash": "yes"}), "A few bumps.");
    let grave = studio.report(2, &json!({"airway": "yes"}), "My throat is tight.");
    let eye = studio.report(5, &json!({"eye_pain": 4}), "The eye hurts.");
    let all = [mild.as_str(), &grave, &eye];
    let inbox = studio.artist.get(INBOX);
    assert_eq!(order(&inbox, &all), [1, 2, 0]);
    let text = inbox.text();
    for level in ["emergency", "same_day", "studio"] {
        assert!(
            text.contains(&say(&format!("artist.level.{level}"))),
            "{level}"
        );
    }
    // On the first screen as well.
    assert_eq!(order(&studio.artist.get("/studio"), &all), [1, 2, 0]);

    let answered = studio.send(&format!("{grave}/answer"), &[("text", "I rang you.")]);
    assert_eq!(answered.location(), grave);
    let inbox = studio.artist.get(INBOX);
    assert_eq!(order(&inbox, &all), [2, 0, 1]);
    assert!(inbox.text().contains(&say("artist.reports.answered")));
}

#[test]
fn overdue_is_said_in_words_by_the_studios_own_times() {
    let studio = Studio::open();
    let report = studio.report(0, &json!({"eye_pain": 4}), "The eye hurts.");
    let overdue = say("artist.inbox.overdue");
    let overdue = overdue.split(':').next().expect("a word");
    assert!(!studio.screen(&report).contains(overdue));
    // It came four and a half hours ago. What came is never overwritten, so the trigger that sees to that goes first.
    let record = studio.server.home.record();
    let id: Uuid = report
        .rsplit('/')
        .next()
        .expect("an id")
        .parse()
        .expect("an id");
    let then = (Utc::now() - Duration::minutes(270)).timestamp_millis();
    record
        .execute("drop trigger reports_stay", [])
        .expect("dropped");
    record
        .execute(
            "update reports set received_at = ?1 where id = ?2",
            (then, id),
        )
        .expect("moved");
    assert!(
        studio.screen(&report).to_lowercase().contains(overdue),
        "{}",
        studio.screen(&report)
    );

    let replies = "/studio/reports/replies";
    let refused = studio.send(replies, &[("hours_same_day", "0"), ("beginnings", "")]);
    assert_eq!(refused.status, 422);
    assert!(
        refused
            .text()
            .contains(&say("fault.hours").replace("{most}", "336"))
    );
    let fields = [
        ("hours_same_day", "6"),
        ("beginnings", "Dear client,\n\nI have read it."),
    ];
    assert_eq!(studio.send(replies, &fields).location(), replies);
    let screen = studio.screen(&report);
    assert!(!screen.to_lowercase().contains(overdue), "{screen}");
    assert!(screen.contains("Dear client,") && screen.contains("I have read it."));
    assert!(!screen.contains(&say("beginning.thank")));
    // Clients are told the same time, also without a script.
    let link = format!("{}/trouble", studio.server.client_links()[0]);
    let told = say("client.trouble.reply").replace("{time}", "6 hours");
    let told = told.replace("{studio}", "Tamsel Lane Brows");
    assert!(
        Visitor::at(&studio.server)
            .get(&link)
            .text()
            .contains(&told)
    );
    // A version more; the same again is none.
    assert_eq!(studio.send(replies, &fields).status, 303);
    assert_eq!(studio.server.home.count("desk_versions"), 1);
}

#[test]
fn the_answers_that_raised_it_come_first_and_what_was_told_is_beside() {
    let studio = Studio::open();
    let report = studio.report(
        0,
        &json!({"eye_pain": 4, "itch": 2, "hives": "none", "fever": "not_sure", "trend": "worse"}),
        "Since an hour.",
    );
    let text = studio.screen(&report);
    let eye = format!("{} 4/10", say("urgency.name.eye_pain"));
    let itch = format!("{} 2/10", say("urgency.name.itch"));
    let at = |what: &str| text.find(what).unwrap_or_else(|| panic!("{what}: {text}"));
    assert!(at(&say("artist.level.same_day")) < at(&eye));
    assert!(at(&eye) < at("Since an hour.") && at(&eye) < at(&itch));
    assert!(at(&say("artist.work.not_sure")) < at(&say("urgency.name.fever")));
    assert!(at(&say("artist.work.absent")) < at(&say("urgency.name.hives")));
    for told in [
        "urgency.advice.today",
        "urgency.trend.worse",
        "place.left_lid",
        "agreed.report",
    ] {
        at(&say(told));
    }
    // The visit beside it.
    // Her patch test was clear.
    at(&say("patch_outcome.no_reaction"));
    for fact in ["Velm soft wax", "VW 2261", "07700 900000"] {
        at(fact);
    }
}

#[test]
fn looking_is_told_by_a_post_and_answering_counts_as_looking() {
    let studio = Studio::open();
    let report = studio.report(0, &json!({"rash": "yes"}), "A few bumps.");
    let other = studio.report(2, &json!({"rash": "yes"}), "A few bumps, too.");
    let before = studio.server.home.count("report_seen");
    studio.screen(&report);
    assert_eq!(
        studio.server.home.count("report_seen"),
        before,
        "a GET changes nothing"
    );
    let seen = studio.send(&format!("{report}/seen"), &[]);
    assert_eq!((seen.status, seen.body.as_str()), (204, ""));
    assert_eq!(studio.send(&format!("{report}/seen"), &[]).status, 204);
    assert_eq!(studio.server.home.count("report_seen"), before + 1);
    let line = say("artist.work.seen");
    let line = line.split('{').next().expect("words").trim();
    let screen = studio.screen(&report);
    let seen = screen.split_once(line).expect("a line").1;
    let seen = seen.split('.').next().expect("a sentence");
    assert!(seen.ends_with(" by Ilse Marend"), "{seen}");
    assert!(!studio.screen(&other).contains(line));
    assert_eq!(studio.send(&format!("{other}/settle"), &[]).status, 303);
    assert_eq!(studio.server.home.count("report_seen"), before + 2);
    let settled = say("artist.report.settled");
    let settled = settled.split('{').next().expect("words");
    let screen = studio.screen(&other);
    let after = screen
        .split(settled)
        .find(|part| part.contains(" by Ilse Marend."));
    assert!(after.is_some(), "{screen}");
    // Nobody else, and not without the screen's token.
    let stranger = Visitor::at(&studio.server);
    assert_eq!(stranger.post(&format!("{other}/seen"), &[]).status, 303);
    assert_eq!(
        studio.artist.post(&format!("{other}/seen"), &[]).status,
        403
    );
    let nothing = format!("{INBOX}/{}/seen", Uuid::new_v4());
    assert_eq!(studio.send(&nothing, &[]).status, 404);
}

#[test]
fn what_became_of_it_is_kept_note_by_note() {
    let studio = Studio::open();
    let report = studio.report(0, &json!({"rash": "yes"}), "A few bumps.");
    let outcome = format!("{report}/outcome");
    let empty = studio.send(&outcome, &[("advised", "  ")]);
    assert_eq!(empty.status, 422);
    assert!(empty.text().contains(&say("fault.outcome_empty")));
    let tomorrow = (Utc::now() + Duration::days(2))
        .format("%Y-%m-%d")
        .to_string();
    let early = studio.send(
        &outcome,
        &[("advised", "To see a doctor."), ("aware_on", &tomorrow)],
    );
    assert_eq!(early.status, 422);
    assert!(early.body.contains("To see a doctor.") && early.text().contains(&say("fault.future")));
    assert_eq!(studio.server.home.count("report_outcomes"), 0);

    let first = [("advised", "To see a pharmacist."), ("ended", "pharmacist")];
    assert_eq!(studio.send(&outcome, &first).location(), report);
    assert_eq!(
        studio.send(&outcome, &first).location(),
        report,
        "a second tap"
    );
    assert_eq!(studio.server.home.count("report_outcomes"), 1);
    let beside = studio.artist.get(&report).hidden("beside");
    let today = Utc::now().date_naive();
    let second = [
        ("beside", beside.as_str()),
        ("advised", "To see a doctor."),
        ("done", "Went on Friday."),
        ("ended", "doctor"),
        ("serious", "functional_incapacity"),
        ("aware_on", &today.to_string()),
        ("medically_confirmed", "yes"),
        ("re_exposure", "not_performed"),
    ];
    assert_eq!(studio.send(&outcome, &second).location(), report);
    let text = studio.screen(&report);
    for kept in [
        "To see a pharmacist.",
        "To see a doctor.",
        "Went on Friday.",
        &say("serious.functional_incapacity"),
        "Ilse Marend",
        // 20 calendar days: Tukes, Reporting serious undesirable effects.
        &(today + Duration::days(20)).format("%A %-d %B").to_string(),
    ] {
        assert!(text.contains(kept), "{kept}: {text}");
    }
    // The boxes of the United Kingdom, and none of the wider list of the United States.
    assert!(text.contains(&say("serious.hospitalisation")));
    assert!(!text.contains(&say("serious.infection")));
    let law = say("serious_law.uk").replace("{days}", "20");
    assert!(text.contains(&law) && text.contains(&say("serious_law.passing_on")));
    assert!(text.contains(&say("serious_law.usual_things")));
    // Every note stays as it is.
    let record = studio.server.home.record();
    let change = record.execute("update report_outcomes set advised = ''", []);
    let refused = change.expect_err("refused").to_string();
    assert!(refused.contains("never overwritten"), "{refused}");
}

/// A screen that was open while somebody else noted something takes nothing back unseen.
#[test]
fn a_note_from_an_older_screen_comes_back_with_the_newer_one() {
    let studio = Studio::open();
    let report = studio.report(0, &json!({"rash": "yes"}), "A few bumps.");
    let outcome = format!("{report}/outcome");
    let beside = |page: &Answer| page.hidden("beside");
    assert_eq!(beside(&studio.artist.get(&report)), "");
    let serious = [
        ("beside", ""),
        ("done", "Was taken in on Friday."),
        ("serious", "hospitalisation"),
    ];
    assert_eq!(studio.send(&outcome, &serious).location(), report);
    let stale = [("beside", ""), ("advised", "Rang her.")];
    let again = studio.send(&outcome, &stale);
    assert_eq!(again.status, 422);
    assert_eq!(studio.server.home.count("report_outcomes"), 1);
    let text = again.text();
    assert!(text.contains(&say("fault.outcome_newer")), "{text}");
    assert!(text.contains("Rang her.") && text.contains("Was taken in on Friday."));
    let ticked = |page: &Answer| {
        let input = page
            .body
            .split("<input")
            .find(|one| one.contains("value=\"hospitalisation\""));
        input
            .expect("a box")
            .split('>')
            .next()
            .expect("a tag")
            .contains("checked")
    };
    assert!(ticked(&again));
    let newest = beside(&again);
    assert_eq!(newest, beside(&studio.artist.get(&report)));
    // Whoever has seen it may take it back.
    let known = [("beside", newest.as_str()), ("advised", "Rang her.")];
    assert_eq!(studio.send(&outcome, &known).location(), report);
    assert!(!ticked(&studio.artist.get(&report)));
    assert_eq!(studio.server.home.count("report_outcomes"), 2);
}

/// Each region has boxes of its own; nobody can have ticked another's (Regulation (EC) 1223/2009, Article 2(1)(p), and for
/// the United States the list read at soapguild.org, "Adverse Event Reporting").
#[test]
fn only_boxes_and_days_that_can_be_are_taken() {
    let studio = Studio::open();
    let report = studio.report(0, &json!({"rash": "yes"}), "A few bumps.");
    let outcome = format!("{report}/outcome");
    let foreign = studio.send(&outcome, &[("serious", "infection")]);
    assert_eq!(foreign.status, 422);
    assert!(foreign.text().contains(&say("fault.unknown_choice")));
    let finished: i64 = studio
        .server
        .home
        .record()
        .query_row(
            "select finished_at from visits join reports on reports.visit = visits.id order by reports.received_at desc limit 1",
            [],
            |row| row.get(0),
        )
        .expect("a time");
    // Nobody works at a time of day at which London and UTC have different dates.
    let visit = chrono::DateTime::from_timestamp_millis(finished)
        .expect("a time")
        .date_naive();
    for (day, status) in [
        ("1900-01-01".to_owned(), 422),
        ((visit - Duration::days(1)).to_string(), 422),
        (visit.to_string(), 303),
    ] {
        let answer = studio.send(
            &outcome,
            &[("serious", "hospitalisation"), ("aware_on", &day)],
        );
        assert_eq!(answer.status, status, "{day}");
        let said = answer.text().contains(&say("fault.aware_before"));
        assert_eq!(said, status == 422, "{day}");
    }

    let region = |region: &str| {
        let fields = [
            ("studio_name", "Tamsel Lane Brows"),
            ("phone", "020 7946 0418"),
            ("contact_email", ""),
            ("region", region),
            ("time_zone", "Europe/London"),
        ];
        let path = "/studio/particulars";
        assert_eq!(
            studio.artist.post_signed("/studio", path, &fields).status,
            303
        );
    };
    region("us");
    let page = studio.artist.get(&report);
    assert!(page.text().contains(&say("serious.infection")));
    // Ticked before: it stays on offer.
    assert!(page.text().contains(&say("serious.hospitalisation")));
    assert!(!page.text().contains(&say("serious_law.usual_things")));
    let fields = [
        ("beside", page.hidden("beside")),
        ("serious", "infection".to_owned()),
    ];
    let fields = fields
        .each_ref()
        .map(|(name, value)| (*name, value.as_str()));
    assert_eq!(studio.send(&outcome, &fields).status, 303);
    let case = studio.artist.get(&format!("{report}/case.json")).json();
    assert_eq!(case["seriousness"]["infection"], true);
    assert_eq!(case["seriousness"]["hospitalisation"], false);
    // No box of the United States.
    assert_eq!(case["seriousness"]["functional_incapacity"], Value::Null);
    region("uk");
    let page = studio.artist.get(&report);
    assert!(page.text().contains(&say("serious.infection")));
    let fields = [
        ("beside", page.hidden("beside")),
        ("serious", "infection".to_owned()),
        ("done", "Told again.".to_owned()),
    ];
    let fields = fields
        .each_ref()
        .map(|(name, value)| (*name, value.as_str()));
    assert_eq!(studio.send(&outcome, &fields).status, 303);
}

/// The same product after another report, and in other words, is another note; lifted, it has stood.
#[test]
fn noted_again_after_another_report_it_is_kept_and_lifting_is_told() {
    let studio = Studio::open();
    let first = studio.report(0, &json!({"rash": "yes"}), "A few bumps.");
    let second = studio.report(0, &json!({"rash": "yes", "itch": 5}), "Again, and worse.");
    let stopped = |report: &str| {
        let case = studio.artist.get(&format!("{report}/case.json")).json();
        case["products"][0]["use_stopped"].clone()
    };
    let note = |report: &str, words: &str| {
        let fields = [("product", "0"), ("words", words)];
        assert_eq!(
            studio
                .send(&format!("{report}/not-again"), &fields)
                .location(),
            report
        );
    };
    note(&first, "It stung.");
    assert_eq!(
        (stopped(&first), stopped(&second)),
        (json!("yes"), Value::Null)
    );
    note(&second, "Again, worse.");
    note(&second, "Again, worse.");
    assert_eq!(studio.server.home.count("not_again"), 2);
    assert_eq!(
        (stopped(&first), stopped(&second)),
        (json!("yes"), json!("yes"))
    );
    // One warning: by the latest.
    let screen = studio.artist.get(&first);
    assert_eq!(screen.body.matches("name=\"not_again\"").count(), 1);
    assert!(screen.text().contains("Again, worse.") && !screen.text().contains("It stung."));
    let lifted = say("artist.not_again.lifted_title");
    assert!(!screen.text().contains(&lifted));

    let fields = [("not_again", screen.hidden("not_again"))];
    let fields = fields
        .each_ref()
        .map(|(name, value)| (*name, value.as_str()));
    assert_eq!(
        studio.send(&format!("{first}/lift"), &fields).location(),
        first
    );
    assert_eq!(
        (stopped(&first), stopped(&second)),
        (Value::Null, Value::Null)
    );
    let text = studio.screen(&second);
    let stood = text.split_once(&lifted).expect("what stood").1;
    for said in [
        "Velm soft wax, batch VW 2261",
        "It stung.",
        "Again, worse.",
        "by Ilse Marend. ",
    ] {
        assert!(stood.contains(said), "{said}: {text}");
    }
}

#[test]
fn a_product_not_to_be_used_again_warns_at_the_next_visit_until_it_is_lifted() {
    let studio = Studio::open();
    // Noor's visit, with the wax first among its products.
    let client = "00000000-0000-8000-8000-000100000001";
    let report = studio.report(0, &json!({"rash": "yes"}), "A few bumps.");
    let none = studio.send(&format!("{report}/not-again"), &[("words", "It stung.")]);
    assert_eq!(none.status, 422);
    assert!(none.text().contains(&say("fault.product_none")) && none.body.contains("It stung."));
    let note = [("product", "0"), ("whole", "yes"), ("words", "It stung.")];
    for _ in 0..2 {
        assert_eq!(
            studio
                .send(&format!("{report}/not-again"), &note)
                .location(),
            report
        );
    }
    assert_eq!(studio.server.home.count("not_again"), 1);
    let stands = say("artist.not_again.whole").replace("{product}", "Velm soft wax");
    assert!(studio.screen(&report).contains(&stands));
    let visit = "/studio/visits/00000000-0000-8000-8000-000200000001";
    assert!(studio.screen(visit).contains(&stands));
    // Offered: said when the client is chosen.
    assert!(
        studio
            .screen(&format!("/studio/visits/new?client={client}"))
            .contains(&stands)
    );

    let tomorrow = (Utc::now() + Duration::days(0))
        .format("%Y-%m-%d")
        .to_string();
    let enter = |product: &str| {
        let form = VisitForm::of(&studio.artist, client);
        let fields = [
            ("date", tomorrow.as_str()),
            ("treatments", "face_wax"),
            ("product_1", product),
        ];
        form.send_known(&studio.artist, &fields)
    };
    let warning = say("concern.product_not_again").replace("{products}", "Velm soft wax");
    let warned = enter(" velm SOFT wax ");
    assert_eq!(warned.status, 422);
    assert!(warned.text().contains(&warning), "{}", warned.text());
    let blanks = enter("Velm  soft wax");
    assert!(blanks.text().contains(&warning), "{}", blanks.text());
    let other = enter("Orrin wax");
    assert!(!other.text().contains(&warning), "{}", other.text());

    let screen = studio.artist.get(&report);
    let id = screen.hidden("not_again");
    let lift = format!("{report}/lift");
    for _ in 0..2 {
        assert_eq!(studio.send(&lift, &[("not_again", &id)]).location(), report);
    }
    assert!(!enter("Velm soft wax").text().contains(&warning));
    // Noted and lifted are both kept.
    assert_eq!(studio.server.home.count("not_again"), 2);
    let record = studio.server.home.record();
    assert!(
        record
            .execute("update not_again set kind = 'lifted'", [])
            .is_err()
    );
}

#[test]
fn getting_worse_puts_it_back_into_the_inbox() {
    let studio = Studio::open();
    let link = &studio.server.client_links()[0];
    let report = studio.report(0, &json!({"rash": "yes"}), "A few bumps.");
    for step in ["answer", "settle"] {
        let fields: &[_] = if step == "answer" {
            &[("text", "Thank you.")]
        } else {
            &[]
        };
        assert_eq!(studio.send(&format!("{report}/{step}"), fields).status, 303);
    }
    let open = |page: &Answer| {
        let text = page
            .body
            .split(&say("artist.reports.settled"))
            .next()
            .unwrap_or("")
            .to_owned();
        text.contains(&format!("href=\"{report}\""))
    };
    assert!(!open(&studio.artist.get(INBOX)));
    assert!(
        !studio
            .screen(&report)
            .contains(&say("artist.work.followed_title"))
    );
    // A day later the page asks.
    let id: Uuid = report
        .rsplit('/')
        .next()
        .expect("an id")
        .parse()
        .expect("an id");
    studio.server.home.let_pass(25);
    let worse = Visitor::at(&studio.server).put(
        &format!("{link}/reports/{id}/follow-ups/24"),
        &json!({"how": "worse"}),
    );
    assert_eq!(worse.status, 200, "{}", worse.body);
    assert!(open(&studio.artist.get(INBOX)));
    let text = studio.screen(&report);
    let since = text.split_once(&say("artist.work.followed_title"));
    let since = since.expect("how it went on").1.trim_start();
    let line = say("artist.work.followed").replace("{how}", &say("client.follow.worse"));
    let line = line.split('{').next().expect("words");
    assert!(since.starts_with(line), "{since}");
}
