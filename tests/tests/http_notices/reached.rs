//! Who is reached although somebody else is not, and that the artist's lists say when nobody is.

use tests::{
    mail_server::{Kind, MailServer, free_port},
    wait::until,
    words::say,
};

use crate::{
    PLAIN,
    hook::Hook,
    scene::{NOTICES, Scene, mail},
    subject,
};

/// A mail server may refuse one recipient and take the others (RFC 5321 section 3.3: 550 in answer to that RCPT alone).
#[test]
fn one_wrong_address_keeps_nobody_else_from_being_told() {
    let scene = Scene::open();
    let port = free_port();
    let kind = Kind {
        unknown: &["gone@rake.example"],
        ..PLAIN
    };
    let server = MailServer::start(port, &kind);
    let port = port.to_string();
    let to = |to| {
        let set = scene.set(&mail(&port, &[("to", to)]));
        assert_eq!(set.location(), NOTICES);
    };
    to("gone@rake.example, tilda@rake.example, mo@rake.example");
    assert!(!scene.not_told("mail"));
    scene.report();
    let told = |count| -> Vec<String> {
        let letters = server.wait_for(count);
        assert!(letters.iter().all(|one| one.to.len() == 1));
        letters.into_iter().flat_map(|one| one.to).collect()
    };
    let both = ["tilda@rake.example", "mo@rake.example"];
    assert_eq!(told(2), both);
    // It is tried again for the one, which is named, and nobody else gets it twice.
    until("it was tried again", || {
        (scene.attempts().len() >= 3).then_some(())
    });
    assert_eq!(told(2), both);
    let failed = ("failed".to_owned(), "refused".to_owned());
    assert!(scene.attempts().iter().all(|one| *one == failed));
    assert!(scene.not_told("mail"));
    let screen = scene.artist.get(NOTICES).text();
    for said in [
        "gone@rake.example: ",
        "nobody of that name here",
        &say("artist.notices.waiting.one").replace("{n}", "1"),
    ] {
        assert!(screen.contains(said), "`{said}` in {screen}");
    }

    // Once the address is mended it goes there as well, and there alone.
    to("here@rake.example, tilda@rake.example, mo@rake.example");
    assert_eq!(told(3), [both[0], both[1], "here@rake.example"]);
    until("it is noted", || (scene.waiting() == 0).then_some(()));
    assert_eq!(scene.attempts().last().expect("one").0, "sent");
    let letters = server.letters();
    for letter in &letters {
        assert_eq!(letter.header("subject"), subject("studio"));
        assert_eq!(letter.header("message-id"), letters[0].header("message-id"));
    }
    assert!(!scene.not_told("mail"));
    // Who has it stays as it was noted.
    let change = scene
        .home
        .record()
        .execute("update notice_recipients set at = 0", []);
    let refused = change.expect_err("refused").to_string();
    assert!(refused.contains("never overwritten"), "{refused}");
}

#[test]
fn who_has_a_notice_does_not_get_it_again_after_a_stop() {
    let scene = Scene::open();
    let port = free_port();
    let kind = Kind {
        unknown: &["gone@rake.example"],
        ..PLAIN
    };
    let server = MailServer::start(port, &kind);
    let port = port.to_string();
    let fields = mail(&port, &[("to", "tilda@rake.example, gone@rake.example")]);
    assert_eq!(scene.set(&fields).location(), NOTICES);
    scene.report();
    server.wait_for(1);
    let tried = |scene: &Scene, at_least: usize| {
        until("it was tried", || {
            let tried = scene.attempts().len();
            (tried >= at_least).then_some(tried)
        })
    };
    let before = tried(&scene, 1);
    let scene = scene.restart();
    tried(&scene, before + 2);
    assert_eq!(server.letters().len(), 1);
}

#[test]
fn the_lists_say_when_messages_do_not_get_through() {
    let scene = Scene::open();
    let gone = format!("http://127.0.0.1:{}/told", free_port());
    scene.tell_by_webhook(&gone);
    assert!(!scene.not_told("webhook"), "nothing went wrong so far");
    let report = scene.report();
    until("it was tried", || {
        (!scene.attempts().is_empty()).then_some(())
    });
    assert!(scene.not_told("webhook"));
    let elsewhere = scene.artist.get("/studio/practice").text();
    let line = say("artist.notices.not_told");
    let line = line.split('{').next().expect("words");
    assert!(!elsewhere.contains(line), "only above the lists");

    // Five days later it is given up. Meanwhile the way works again; of this report nobody was told.
    let record = scene.home.record();
    record
        .execute_batch(
            "drop trigger notices_stay; update notices set made_at = made_at - 6 * 86400000;",
        )
        .expect("a change");
    until("it is given up", || (scene.waiting() == 0).then_some(()));
    assert_eq!(scene.attempts().last().expect("one").0, "given_up");
    let hook = Hook::answering(&["204 No Content"]);
    let set = scene.set(&[("webhook", "yes"), ("address", &hook.address)]);
    assert_eq!(set.location(), NOTICES);
    scene.try_ways();
    hook.wait_for(1);
    until("it is noted", || (scene.waiting() == 0).then_some(()));
    assert!(scene.not_told("webhook"));
    let screen = scene.artist.get(NOTICES).text();
    let lost = say("artist.notices.lost.one").replace("{n}", "1");
    assert!(screen.contains(&lost), "{screen}");
    scene.settle(report);
    assert!(!scene.not_told("webhook"), "that report waits no more");

    // A way that is switched off troubles nobody.
    let set = scene.set(&[("webhook", "yes"), ("address", &gone)]);
    assert_eq!(set.location(), NOTICES);
    scene.try_ways();
    assert!(scene.not_told("webhook"));
    assert_eq!(scene.set(&[("security", "nothing")]).location(), NOTICES);
    assert!(!scene.not_told("webhook"));
}
