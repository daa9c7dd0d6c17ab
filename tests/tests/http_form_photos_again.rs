//! A plain form that comes back with photos in it, and what becomes of them when it is sent again.

use std::{thread, time::Duration};

use image::ImageFormat;
use rusqlite::Connection;
use tests::{
    photos::{files, grainy, send_form, two_halves},
    server::{Home, Server},
    visitor::Visitor,
    words::say,
};
use uuid::Uuid;

const TICKS: [&str; 2] = ["consent", "consent_photos"];

/// How many reports there are with photos announced, and how many photos each of them has.
fn photos_of_reports(record: &Connection) -> Vec<i64> {
    let mut statement = record
        .prepare(
            "select (select count(*) from photos where report = reports.id) from reports
             where photos_announced > 0 order by received_at, rowid",
        )
        .expect("a query");
    let rows = statement.query_map([], |row| row.get(0)).expect("rows");
    rows.collect::<Result<_, _>>().expect("counts")
}

#[test]
fn one_that_is_chosen_after_another_was_left_out_joins_the_report() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let link = &server.client_links()[0];
    let id = client.get(&format!("{link}/trouble")).hidden("report_id");
    let [good, other, third] = [1, 2, 3].map(|seed| grainy(60, 40, seed));
    let send = |id: &str, photos: &[(&str, &[u8])]| {
        send_form(&client, link, id, "It is swollen.", &TICKS, photos)
    };

    let back = send(&id, &[("notes.jpg", b"no picture")]);
    assert!(back.status < 400 && back.text().contains("notes.jpg"));
    assert_eq!(photos_of_reports(&server.home.record()), [0]);

    // The form that came back, with another photo; then with two more; then the same again.
    let id = back.hidden("report_id");
    for (photos, kept) in [
        (&[("eye.jpg", &good[..])][..], 1),
        (&[("brow.jpg", &other), ("lid.jpg", &third)], 3),
        (&[("brow.jpg", &other), ("lid.jpg", &third)], 3),
    ] {
        let sent = send(&id, photos);
        assert!(sent.location().ends_with("#reports"), "{}", sent.body);
        assert_eq!(photos_of_reports(&server.home.record()), [kept]);
        assert_eq!(files(&server, "photos") as i64, kept);
    }

    // Going back, a browser loads the form anew. What is left out is named again.
    let fresh = Uuid::new_v4().to_string();
    let (fourth, fifth) = (grainy(60, 40, 4), grainy(60, 40, 5));
    let back = send(&fresh, &[("4.jpg", &fourth), ("5.jpg", &fifth)]);
    assert!(
        back.text().contains("5.jpg") && !back.text().contains("4.jpg"),
        "{}",
        back.text()
    );
    assert_eq!(photos_of_reports(&server.home.record()), [4]);

    // Other words are another report, under the same id or not.
    send_form(
        &client,
        link,
        &id,
        "It is worse.",
        &TICKS,
        &[("eye.jpg", &good)],
    )
    .location();
    assert_eq!(photos_of_reports(&server.home.record()), [4, 1]);
}

#[test]
fn a_form_that_comes_back_asks_for_its_photos_again() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let link = &server.client_links()[0];
    let again = say("client.tell.photos_again");
    let photo = two_halves(64, 48, ImageFormat::Jpeg);
    let id = Uuid::new_v4().to_string();
    let untick = |photos: &[(&str, &[u8])]| {
        let back = send_form(
            &client,
            link,
            &id,
            "It is swollen.",
            &["consent_photos"],
            photos,
        );
        assert_eq!(back.status, 422);
        back.text().contains(&again)
    };
    assert!(untick(&[("eye.jpg", &photo)]));
    assert!(!untick(&[("", b"")]), "nothing was chosen");

    // Ticked, and chosen again.
    send_form(
        &client,
        link,
        &id,
        "It is swollen.",
        &TICKS,
        &[("eye.jpg", &photo)],
    )
    .location();
    assert_eq!(photos_of_reports(&server.home.record()), [1]);

    // "What should I do now?" brings names alone.
    for (name, asked) in [("eye.jpg", true), ("", false)] {
        let fields = [("swelling", "local"), ("photos", name)];
        let advice = client.post(&format!("{link}/trouble"), &fields);
        assert_eq!(advice.status, 200);
        assert_eq!(advice.text().contains(&again), asked, "{name}");
    }
}

/// The studio is killed while it writes down a photo, which the test makes long: then there is neither photo nor report.
#[test]
fn a_stop_in_the_middle_leaves_the_report_with_its_photos_or_neither() {
    let home = Home::new();
    let server = Server::start(&home, &["--demo"]);
    let link = server.client_links().swap_remove(0);
    let record = home.record();
    record
        .execute_batch(
            "create view endless as with recursive number(n) as (select 1 union all select n + 1 from number)
                select n from number;
             create trigger takes_long before insert on photos begin select count(*) from endless; end;",
        )
        .expect("a trigger");
    let id = Uuid::new_v4().to_string();
    let photo = grainy(60, 40, 1);
    let sender = thread::spawn({
        let (address, link, id, photo) = (
            server.address.clone(),
            link.clone(),
            id.clone(),
            photo.clone(),
        );
        move || {
            // The answer never comes.
            let _ = std::panic::catch_unwind(|| {
                let client = Visitor::to(&address);
                send_form(
                    &client,
                    &link,
                    &id,
                    "It is swollen.",
                    &TICKS,
                    &[("eye.jpg", &photo)],
                )
            });
        }
    });
    record.busy_timeout(Duration::ZERO).expect("no patience");
    let is_writing = || record.execute_batch("begin immediate; rollback").is_err();
    while files(&server, "photos") == 0 || !is_writing() {
        thread::sleep(Duration::from_millis(5));
    }
    server.kill();
    sender.join().expect("the sender");
    record
        .busy_timeout(Duration::from_secs(10))
        .expect("patience");
    assert_eq!(photos_of_reports(&record), [0; 0]);
    record
        .execute_batch("drop trigger takes_long; drop view endless")
        .expect("no trigger");
    drop(record);
}

#[test]
fn a_disk_that_takes_no_photo_still_takes_the_report() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let link = &server.client_links()[0];
    let id = Uuid::new_v4().to_string();
    let photo = grainy(60, 40, 1);
    let send = || {
        let photos: [(&str, &[u8]); 1] = [("eye.jpg", &photo)];
        send_form(&client, link, &id, "It is swollen.", &TICKS, &photos)
    };
    let folder = server.home.data().join("photos");
    let elsewhere = folder.with_extension("elsewhere");
    std::fs::rename(&folder, &elsewhere).expect("a folder");
    let back = send();
    let (text, why) = (back.text(), say("notice.broken.sentence"));
    assert_eq!(back.status, 200, "{text}");
    assert!(text.contains("eye.jpg") && text.contains(&why), "{text}");
    assert_eq!(photos_of_reports(&server.home.record()), [0]);

    std::fs::rename(&elsewhere, &folder).expect("a folder");
    assert!(send().location().ends_with("#reports"));
    assert_eq!(photos_of_reports(&server.home.record()), [1]);
}
