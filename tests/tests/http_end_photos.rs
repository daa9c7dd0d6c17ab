//! Photos that the artist takes at the end of a visit.

use image::ImageFormat;
use tests::{
    photos::{as_a_camera_wrote_it, files, grainy, post_with_files, two_halves},
    server::Server,
    visitor::{Answer, Visitor},
    words::say,
};

/// The page of the demo's latest visit.
fn latest_visit(artist: &Visitor) -> String {
    let today = artist.get("/studio").body;
    let id = today
        .split("href=\"/studio/visits/")
        .skip(1)
        .filter_map(|rest| rest.split('"').next())
        .find(|id| id.len() == 36)
        .expect("a visit");
    format!("/studio/visits/{id}")
}

fn photos_on(page: &Answer) -> Vec<String> {
    page.body
        .split("<img src=\"/studio/photos/")
        .skip(1)
        .filter_map(|rest| rest.split('"').next())
        .map(|id| format!("/studio/photos/{id}"))
        .collect()
}

#[test]
fn they_are_kept_shown_and_erased() {
    let server = Server::demo();
    let artist = Visitor::demo_artist(&server);
    let page = latest_visit(&artist);
    let shown = artist.get(&page);
    let csrf = shown.hidden("csrf");
    let version = {
        let consent = shown.body.split("name=\"consent\"").nth(1).expect("a tick");
        consent
            .split("value=\"")
            .nth(1)
            .and_then(|rest| rest.split('"').next())
            .expect("a version")
            .to_owned()
    };
    let send = |fields: &[(&str, &str)], files: &[(&str, &str, &[u8])]| {
        let fields = [&[("csrf", csrf.as_str())], fields].concat();
        post_with_files(&artist, &format!("{page}/photos"), &fields, files)
    };
    let agreed = [("consent", version.as_str())];
    let photo = as_a_camera_wrote_it(&two_halves(400, 300, ImageFormat::Jpeg));

    // Without the tick, without a photo, with what is none.
    let unticked = send(&[], &[("photos", "brows.jpg", &photo)]);
    assert_eq!(unticked.status, 422);
    assert!(
        unticked.text().contains("Please ask"),
        "{}",
        unticked.text()
    );
    let none = send(&agreed, &[("photos", "", b"")]);
    assert_eq!(none.status, 422);
    assert!(none.text().contains(&say("artist.photos.none_chosen")));
    let broken = send(&agreed, &[("photos", "C:\\notes.jpg", b"no picture")]);
    assert_eq!(broken.status, 422);
    let text = broken.text();
    assert!(
        text.contains("“notes.jpg” was not kept.")
            && text.contains(&say("notice.photo_unreadable.sentence")),
        "{text}"
    );
    assert_eq!(
        (
            files(&server, "photos"),
            photos_on(&artist.get(&page)).len()
        ),
        (0, 0)
    );

    // One of two is kept.
    let half = send(
        &agreed,
        &[
            ("photos", "a.jpg", &photo),
            ("photos", "b.jpg", &photo[..photo.len() / 2]),
        ],
    );
    assert_eq!(half.status, 422);
    assert!(half.text().contains("“b.jpg”") && !half.text().contains("“a.jpg”"));
    let shown = artist.get(&page);
    let kept = photos_on(&shown);
    assert_eq!((kept.len(), files(&server, "photos")), (1, 1));
    let picture = image::load_from_memory(&artist.get(&kept[0]).bytes).expect("a picture");
    assert_eq!((picture.width(), picture.height()), (300, 400), "upright");

    // A second tap adds none; there is room for four.
    assert_eq!(
        send(&agreed, &[("photos", "a.jpg", &photo)]).location(),
        format!("{page}#photos")
    );
    assert_eq!(photos_on(&artist.get(&page)).len(), 1);
    let grains: Vec<_> = (1..=4).map(|seed| grainy(60, 40, seed)).collect();
    let names = ["1.jpg", "2.jpg", "3.jpg", "4.jpg"];
    let four: Vec<_> = names
        .iter()
        .zip(&grains)
        .map(|(name, bytes)| ("photos", *name, bytes.as_slice()))
        .collect();
    let too_many = send(&agreed, &four);
    assert_eq!(too_many.status, 422);
    assert!(too_many.text().contains("“4.jpg”") && !too_many.text().contains("“3.jpg”"));
    let shown = artist.get(&page);
    assert_eq!((photos_on(&shown).len(), files(&server, "photos")), (4, 4));
    // Each that was left out is named, also where there is no form any more.
    let full = send(
        &agreed,
        &[
            ("photos", "5.jpg", &grainy(60, 40, 5)),
            ("photos", "6.jpg", b"no picture"),
        ],
    );
    let text = full.text();
    assert!(
        text.contains("“5.jpg”")
            && text.contains("“6.jpg”")
            && text.contains("There can be 4 photos."),
        "{text}"
    );
    assert!(!shown.body.contains("name=\"photos\""), "no room, no form");

    // What the client agreed to, who took it, when.
    let record = server.home.record();
    let row: (String, String, i64) = record
        .query_row(
            "select consent, agreed_to, made_by is not null and report is null from photos limit 1",
            [],
            |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?)),
        )
        .expect("a row");
    assert_eq!((row.0.as_str(), row.2), (version.as_str(), 1));
    assert!(
        row.1
            .ends_with("agrees that the studio keeps this photo with the visit."),
        "{}",
        row.1
    );

    // Taken out: nobody sees it, the file is gone, the row stays.
    let client = Visitor::at(&server);
    let out = format!("{}/take-out", kept[0]);
    assert_eq!(client.post(&out, &[]).location(), "/studio/sign-in");
    assert_eq!(artist.post(&out, &[]).status, 403);
    assert_eq!(artist.post_signed(&page, &out, &[]).location(), page);
    assert_eq!(artist.get(&kept[0]).status, 404);
    assert_eq!(
        (
            photos_on(&artist.get(&page)).len(),
            files(&server, "photos")
        ),
        (3, 3)
    );
    let rows: (i64, i64) = record
        .query_row(
            "select (select count(*) from photos), (select count(*) from photo_events)",
            [],
            |row| Ok((row.get(0)?, row.get(1)?)),
        )
        .expect("counts");
    assert_eq!(rows, (4, 1));
}

#[test]
fn only_the_signed_in_artist_adds_them() {
    let server = Server::demo();
    let artist = Visitor::demo_artist(&server);
    let page = format!("{}/photos", latest_visit(&artist));
    let photo = two_halves(64, 48, ImageFormat::Jpeg);
    let sent = [("photos", "a.jpg", photo.as_slice())];
    let stranger = Visitor::at(&server);
    assert_eq!(
        post_with_files(&stranger, &page, &[("consent", "2026-11")], &sent).location(),
        "/studio/sign-in"
    );
    assert_eq!(
        post_with_files(
            &artist,
            &page,
            &[("consent", "2026-11"), ("csrf", "guess")],
            &sent
        )
        .status,
        403
    );
    let csrf = artist.get("/studio").hidden("csrf");
    let unknown = post_with_files(&artist, &page, &[("csrf", &csrf), ("colour", "red")], &sent);
    assert_eq!(unknown.status, 400);
    assert!(unknown.text().contains("unknown field `colour`"));
    let nowhere = "/studio/visits/00000000-0000-0000-0000-000000000000/photos";
    assert_eq!(
        post_with_files(
            &artist,
            nowhere,
            &[("csrf", &csrf), ("consent", "2026-11")],
            &sent
        )
        .status,
        404
    );
    assert_eq!(files(&server, "photos"), 0);
}

/// A hundred megabytes are read and not held: the answer names what was too large.
#[test]
fn a_file_that_is_far_too_large_is_named() {
    let server = Server::demo();
    let artist = Visitor::demo_artist(&server);
    let page = latest_visit(&artist);
    let csrf = artist.get(&page).hidden("csrf");
    let heavy = vec![7; 100_000_000];
    let answer = post_with_files(
        &artist,
        &format!("{page}/photos"),
        &[("csrf", &csrf), ("consent", "2026-11")],
        &[("photos", "heavy.jpg", &heavy)],
    );
    assert_eq!(answer.status, 422);
    assert!(
        answer
            .text()
            .contains("“heavy.jpg” was not kept. A photo may have up to 10 MB."),
        "{}",
        answer.text()
    );
    assert_eq!(files(&server, "photos"), 0);
}
