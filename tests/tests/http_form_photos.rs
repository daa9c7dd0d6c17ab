//! A report with photos by the plain form: a photo that cannot be taken never keeps the report from being taken.

use image::ImageFormat;
use tests::{
    photos::{as_a_camera_wrote_it, files, grainy, send_form, two_halves},
    server::Server,
    visitor::{Answer, Visitor},
    words::say,
};

/// Sends the plain form as it is on the page, with these words, ticks and files.
fn send(
    client: &Visitor,
    link: &str,
    words: &str,
    ticks: &[&str],
    photos: &[(&str, &[u8])],
) -> Answer {
    let id = client.get(&format!("{link}/trouble")).hidden("report_id");
    send_form(client, link, &id, words, ticks, photos)
}

#[test]
fn the_photos_are_kept_with_the_report() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let link = &server.client_links()[0];
    let before = server.home.count("reports");
    let eye = as_a_camera_wrote_it(&two_halves(400, 300, ImageFormat::Jpeg));
    let brow = two_halves(64, 48, ImageFormat::WebP);
    let answer = send(
        &client,
        link,
        "It is swollen.",
        &["consent", "consent_photos"],
        &[("eye.jpg", &eye), ("brow.webp", &brow)],
    );
    assert!(
        answer.location().ends_with("#reports"),
        "{}",
        answer.location()
    );
    assert_eq!(
        (
            server.home.count("reports"),
            server.home.count("photos"),
            files(&server, "photos")
        ),
        (before + 1, 2, 2)
    );
    let (width, height): (u32, u32) = server
        .home
        .record()
        .query_row(
            "select width, height from photos order by rowid limit 1",
            [],
            |row| Ok((row.get(0)?, row.get(1)?)),
        )
        .expect("a photo");
    assert_eq!((width, height), (300, 400), "upright");

    // A browser sends an empty file where none was chosen.
    send(&client, link, "Nothing chosen.", &["consent"], &[("", b"")]).location();
    assert_eq!(
        (server.home.count("reports"), server.home.count("photos")),
        (before + 2, 2)
    );
}

#[test]
fn what_cannot_be_kept_is_named_and_the_report_stands() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let link = &server.client_links()[0];
    let before = server.home.count("reports");
    let good = grainy(60, 40, 1);
    // More than a browser sends of four photos, and what stands behind it in the form is still read.
    let heavy = vec![7; 140_000_000];
    let answer = send(
        &client,
        link,
        "It is swollen.",
        &["consent", "consent_photos"],
        &[
            ("good.jpg", &good),
            ("notes.jpg", b"no picture"),
            ("half.jpg", &good[..good.len() / 2]),
            ("heavy.jpg", &heavy),
        ],
    );
    let text = answer.text();
    assert!(answer.status < 400, "{}: {text}", answer.status);
    for (name, why) in [
        ("notes.jpg", "photo_unreadable"),
        ("half.jpg", "photo_incomplete"),
    ] {
        assert!(
            text.contains(name) && text.contains(&say(&format!("notice.{why}.sentence"))),
            "{name}: {text}"
        );
    }
    assert!(
        text.contains("heavy.jpg") && text.contains("10 MB") && !text.contains("good.jpg"),
        "{text}"
    );
    assert_eq!(
        (
            server.home.count("reports"),
            server.home.count("photos"),
            files(&server, "photos")
        ),
        (before + 1, 1, 1)
    );

    // Five are four and one that is named.
    let five: Vec<_> = (10..15).map(|seed| grainy(60, 40, seed)).collect();
    let names = ["1.jpg", "2.jpg", "3.jpg", "4.jpg", "5.jpg"];
    let five: Vec<_> = names
        .iter()
        .zip(&five)
        .map(|(name, bytes)| (*name, bytes.as_slice()))
        .collect();
    let answer = send(
        &client,
        link,
        "Five of them.",
        &["consent", "consent_photos"],
        &five,
    );
    let text = answer.text();
    assert!(
        answer.status < 400 && text.contains("5.jpg") && !text.contains("4.jpg"),
        "{text}"
    );
    assert_eq!(
        (
            server.home.count("reports"),
            server.home.count("photos"),
            files(&server, "photos")
        ),
        (before + 2, 5, 5)
    );
}

#[test]
fn without_the_tick_nothing_is_kept_and_the_form_comes_back() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let link = &server.client_links()[0];
    let before = server.home.count("reports");
    let photo = two_halves(64, 48, ImageFormat::Jpeg);
    let answer = send(
        &client,
        link,
        "It is swollen.",
        &["consent"],
        &[("eye.jpg", &photo)],
    );
    assert_eq!(answer.status, 422);
    assert!(
        answer.text().contains(&say("fault.consent_photos")),
        "{}",
        answer.text()
    );
    assert!(answer.body.contains("It is swollen."));
    assert_eq!(
        (
            server.home.count("reports"),
            server.home.count("photos"),
            files(&server, "photos")
        ),
        (before, 0, 0)
    );
}
