//! Told at once: a report's notice reaches a real mail server and a program that is told by webhook; it waits for them
//! without loss, goes out once, and says nothing about anybody's health.

#![cfg(test)]

mod hook;
mod reached;
mod safe;
mod scene;

use hook::{Hook, Message};
use scene::{CLIENT, NOTICES, Scene, WORDS, mail};
use tests::{
    mail_server::{Kind, Letter, MailServer, free_port},
    visitor::Visitor,
    wait::until,
    words::say,
};

const PLAIN: Kind = Kind {
    security: "nothing",
    certificate: None,
    sign_in: None,
    refuses: None,
    unknown: &[],
};

/// Nobody can learn from it who reported what.
fn assert_says_nothing_of_health(text: &str) {
    let text = text.to_lowercase();
    let mut secret: Vec<String> = vec![
        CLIENT.to_owned(),
        "07700".to_owned(),
        "Invented wax".to_owned(),
    ];
    secret.extend(
        WORDS
            .split(' ')
            .filter(|word| word.len() > 3)
            .map(str::to_owned),
    );
    secret.extend(["wax", "brow wax", "swell", "itch", "lash", "lid"].map(str::to_owned));
    // The studio's own name is about brows; its clients' treatments are not.
    secret.push(say("treatment.brow_wax"));
    for one in secret {
        assert!(!text.contains(&one.to_lowercase()), "`{one}` in {text}");
    }
}

fn subject(level: &str) -> String {
    say("told_at_once.subject").replace("{level}", &say(&format!("told_at_once.level.{level}")))
}

#[test]
fn a_report_is_told_by_mail_and_by_webhook() {
    let scene = Scene::open();
    let port = free_port();
    let server = MailServer::start(port, &PLAIN);
    let hook = Hook::answering(&["204 No Content"]);
    let secret = scene.artist.get(NOTICES).hidden("secret");
    let port = port.to_string();
    let fields = mail(
        &port,
        &[
            ("to", "tilda@rake.example, mo@rake.example"),
            ("webhook", "yes"),
            ("address", &hook.address),
            ("secret", &secret),
        ],
    );
    assert_eq!(scene.set(&fields).location(), NOTICES);

    let report = scene.report();
    let letters = server.wait_for(2);
    let to: Vec<&[String]> = letters.iter().map(|one| one.to.as_slice()).collect();
    assert_eq!(to, [["tilda@rake.example"], ["mo@rake.example"]]);
    assert_eq!(letters[0].raw, letters[1].raw, "one letter, sent to each");
    let letter: &Letter = &letters[0];
    assert_eq!(letter.from, "notices@pellworm.example");
    assert_eq!(letter.header("to"), "tilda@rake.example, mo@rake.example");
    assert_eq!(letter.header("subject"), subject("studio"));
    assert_eq!(letter.header("auto-submitted"), "auto-generated");
    let link = format!("{}/studio/reports/{report}", scene.server.address);
    assert!(letter.text.contains(&link), "{}", letter.text);
    assert_eq!(letter.header("mime-version"), "1.0");
    assert_says_nothing_of_health(&letter.text);
    assert_says_nothing_of_health(&letter.raw);

    let message: Message = hook.wait_for(1).remove(0);
    assert_eq!(message.line, "POST /told?room=2 HTTP/1.1");
    message.proven(&secret);
    let body = message.json();
    assert_eq!(
        (&body["kind"], &body["level"], &body["link"]),
        (&"report_waits".into(), &"studio".into(), &link.into())
    );
    assert_eq!(
        message.header("idempotency-key"),
        format!("\"{}\"", body["id"].as_str().expect("an id"))
    );
    assert_says_nothing_of_health(&message.body);
    assert!(
        message
            .headers
            .iter()
            .all(|(_, value)| !value.contains(CLIENT)),
        "{:?}",
        message.headers
    );
    // Each says under which id it was sent, and the two are not the same notice.
    assert!(letter.header("message-id").ends_with("@pellworm.example>"));
    assert!(
        !letter
            .header("message-id")
            .contains(body["id"].as_str().expect("an id"))
    );

    until("both are noted", || (scene.waiting() == 0).then_some(()));
    let screen = scene.artist.get(NOTICES).text();
    let went_out = say("artist.notices.went_out");
    let went_out = went_out.split("{when}").next().expect("words");
    assert_eq!(screen.matches(went_out).count(), 2, "{screen}");
    // The same report sent again is no other report, and tells nobody again.
    let client = Visitor::at(&scene.server);
    let again = client.put(
        &format!("{}/reports/{report}", scene.link),
        &scene::report(),
    );
    assert_eq!(again.status, 200);
    scene.try_ways();
    let letters = server.wait_for(4);
    for letter in &letters[2..] {
        assert_eq!(letter.header("subject"), say("told_at_once.try_subject"));
    }
    assert_eq!((letters.len(), hook.wait_for(2).len()), (4, 2));
}

#[test]
fn a_stopped_mail_server_delays_a_notice_and_loses_none() {
    let scene = Scene::open();
    let port = free_port();
    scene.tell_by_mail(port);
    scene.report();
    let failed = |scene: &Scene, at_least: usize| {
        until("it was tried", || {
            let attempts = scene.attempts();
            let failed = ("failed".to_owned(), "no_connection".to_owned());
            assert!(attempts.iter().all(|one| *one == failed), "{attempts:?}");
            (attempts.len() >= at_least).then_some(attempts.len())
        })
    };
    let before = failed(&scene, 3);
    let screen = scene.artist.get(NOTICES).text();
    for said in [
        "artist.notices.fault.no_connection",
        "artist.notices.waiting.one",
    ] {
        let said = say(said).replace("{n}", "1");
        assert!(screen.contains(&said), "{screen}");
    }

    let scene = scene.restart();
    failed(&scene, before + 1);
    let server = MailServer::start(port, &PLAIN);
    server.wait_for(1);
    until("it is noted", || (scene.waiting() == 0).then_some(()));
    let attempts = scene.attempts();
    assert_eq!(attempts.last().expect("one").0, "sent");
    assert_eq!(
        attempts
            .iter()
            .filter(|(outcome, _)| outcome == "sent")
            .count(),
        1
    );

    // Once: what is sent after it comes as the second letter, also when the studio was started again in between.
    let scene = scene.restart();
    scene.try_ways();
    let letters = server.wait_for(2);
    let subjects: Vec<&str> = letters.iter().map(|one| one.header("subject")).collect();
    assert_eq!(
        subjects,
        [&subject("studio"), &say("told_at_once.try_subject")]
    );
    assert_ne!(
        letters[0].header("message-id"),
        letters[1].header("message-id")
    );
    // What happened stays as it was noted.
    let change = scene
        .home
        .record()
        .execute("update notice_attempts set at = 0", []);
    assert!(
        change
            .expect_err("refused")
            .to_string()
            .contains("never overwritten")
    );
}

#[test]
fn a_webhook_is_tried_again_under_the_same_id_and_follows_nobody() {
    let scene = Scene::open();
    let elsewhere = Hook::answering(&["204 No Content"]);
    let on_from_here = format!("307 Temporary Redirect\r\nLocation: {}", elsewhere.address);
    let hook = Hook::answering(&["500 Internal Server Error", &on_from_here, "200 OK"]);
    let secret = scene.tell_by_webhook(&hook.address);
    scene.report();
    let messages = hook.wait_for(3);
    let mut made = 0;
    for message in &messages {
        let created = message.proven(&secret);
        assert!(created >= made, "each is signed at its own time");
        made = created;
        assert_eq!(message.body, messages[0].body);
        assert_eq!(
            message.header("idempotency-key"),
            messages[0].header("idempotency-key")
        );
    }
    until("it is noted", || (scene.waiting() == 0).then_some(()));
    let outcomes: Vec<String> = scene
        .attempts()
        .into_iter()
        .map(|(outcome, fault)| format!("{outcome} {fault}"))
        .collect();
    assert_eq!(outcomes, ["failed refused", "failed redirected", "sent "]);
    assert!(
        elsewhere.messages().is_empty(),
        "a notice went where nobody set it to"
    );
    let wrong = secret.chars().rev().collect::<String>();
    let proof = std::panic::catch_unwind(|| messages[0].proven(&wrong));
    assert!(proof.is_err(), "another secret proves nothing");
}

#[test]
fn what_nobody_needs_any_more_does_not_go_out() {
    let scene = Scene::open();
    let port = free_port();
    scene.tell_by_mail(port);
    let report = scene.report();
    until("it was tried", || {
        (!scene.attempts().is_empty()).then_some(())
    });
    scene.settle(report);
    until("it is let go", || (scene.waiting() == 0).then_some(()));
    assert_eq!(scene.attempts().last().expect("one").0, "not_needed");
    // Nor does anything once the way is switched off, and the way's settings are still there.
    scene.report();
    assert_eq!(scene.set(&[("security", "nothing")]).location(), NOTICES);
    until("it is let go", || (scene.waiting() == 0).then_some(()));
    let server = MailServer::start(port, &PLAIN);
    let screen = scene.artist.get(NOTICES);
    assert!(screen.text().contains(&say("artist.notices.off")));
    assert!(screen.body.contains("notices@pellworm.example"));
    scene.report();
    scene.tell_by_mail(port);
    scene.try_ways();
    let letters = server.wait_for(1);
    assert_eq!(
        letters[0].header("subject"),
        say("told_at_once.try_subject")
    );
    assert_eq!(letters.len(), 1);
}

#[test]
fn a_server_that_takes_nothing_is_told_of_in_its_own_words() {
    let scene = Scene::open();
    let port = free_port();
    let _server = MailServer::start(
        port,
        &Kind {
            refuses: Some("550 not today, thank you"),
            ..PLAIN
        },
    );
    scene.tell_by_mail(port);
    scene.try_ways();
    let screen = scene.artist.get(NOTICES).text();
    assert!(
        screen.contains(&say("artist.notices.fault.refused")),
        "{screen}"
    );
    assert!(screen.contains("not today, thank you"), "{screen}");
}

#[test]
fn how_it_goes_is_told_when_it_is_worse_and_not_when_it_is_better() {
    let scene = Scene::open();
    let port = free_port();
    let server = MailServer::start(port, &PLAIN);
    scene.tell_by_mail(port);
    let report = scene.report();
    server.wait_for(1);
    scene.settle(report);
    scene.later(25);
    scene.follow_up(report, 24, "better");
    scene.try_ways();
    let letters = server.wait_for(2);
    assert_eq!(
        letters[1].header("subject"),
        say("told_at_once.try_subject")
    );
    scene.later(48);
    scene.follow_up(report, 72, "worse");
    // The first answer counts: the same again tells nobody again.
    scene.follow_up(report, 72, "worse");
    let letters = server.wait_for(3);
    let link = format!("/studio/reports/{report}");
    assert!(letters[2].text.contains(&link), "{}", letters[2].text);
    assert_says_nothing_of_health(&letters[2].text);
    let waits = scene.artist.get("/studio/reports").text();
    assert!(waits.contains(CLIENT), "it waits again");
    scene.try_ways();
    assert_eq!(server.wait_for(4).len(), 4);
    let levels: Vec<String> = {
        let record = scene.home.record();
        let mut statement = record
            .prepare("select level from notices where report is not null order by made_at")
            .expect("the notices");
        let rows = statement.query_map([], |row| row.get(0));
        rows.and_then(Iterator::collect).expect("levels")
    };
    let now: String = scene
        .home
        .record()
        .query_row(
            "select level from follow_ups where asked_hours = 72",
            [],
            |row| row.get(0),
        )
        .expect("the level of the follow-up");
    assert_eq!(levels, ["studio".to_owned(), now]);
}

/// Nothing got worse, and yet it is more urgent than it was: raised spots that are there for more than 48 hours are for the
/// same day (rule S7, NHS on hives). While they are not, the same tells nobody.
#[test]
fn how_it_goes_is_told_when_it_is_the_same_and_more_urgent_by_now() {
    let scene = Scene::open();
    let port = free_port();
    let server = MailServer::start(port, &PLAIN);
    scene.tell_by_mail(port);
    let report = scene.report_of(serde_json::json!({"hives": "local", "trend": "same"}));
    assert_eq!(server.wait_for(1)[0].header("subject"), subject("studio"));
    scene.settle(report);
    scene.later(25);
    scene.follow_up(report, 24, "same");
    scene.try_ways();
    let letters = server.wait_for(2);
    let tried = say("told_at_once.try_subject");
    assert_eq!(letters[1].header("subject"), tried);
    scene.later(48);
    scene.follow_up(report, 72, "same");
    assert_eq!(server.wait_for(3)[2].header("subject"), subject("same_day"));
    let waits = scene.artist.get("/studio/reports").text();
    assert!(waits.contains(CLIENT), "it waits again");
}
