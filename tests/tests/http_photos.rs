//! Photos of a report through the real door: made anew, bounded, resumable, and read by nobody else.

use std::thread;

use image::{ImageFormat, Rgb};
use reqwest::Method;
use tests::{
    photos::{
        PIECE, Photo, as_a_camera_wrote_it, files, grainy, png_that_says, report, send_report,
        two_halves,
    },
    server::{Home, Server},
    visitor::{Answer, Visitor},
};
use uuid::Uuid;

fn rows(server: &Server) -> i64 {
    let record = server.home.record();
    let count = record.query_row("select count(*) from photos", [], |row| row.get(0));
    count.expect("a count")
}

/// The problem that an answer holds, by name.
fn problem(answer: &Answer) -> String {
    assert_eq!(
        answer.header("content-type"),
        "application/problem+json",
        "{}",
        answer.body
    );
    let problem = answer.json();
    assert!(
        problem["detail"]
            .as_str()
            .is_some_and(|text| text.len() > 20),
        "{}",
        answer.body
    );
    let name = problem["type"].as_str().expect("a type");
    name.trim_start_matches("/problems/").to_owned()
}

/// Notes in a picture, by a reader that shares no code with what wrote or removed them (the crate kamadak-exif).
fn noted(bytes: &[u8]) -> Option<exif::Exif> {
    let mut read = std::io::Cursor::new(bytes);
    exif::Reader::new().read_from_container(&mut read).ok()
}

fn holds(bytes: &[u8], text: &str) -> bool {
    bytes
        .windows(text.len())
        .any(|some| some == text.as_bytes())
}

#[test]
fn it_comes_out_upright_and_says_nothing_of_where_it_was_taken() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let link = &server.client_links()[0];
    let report = send_report(&client, link, &report("It itches.", 1));
    let sent = as_a_camera_wrote_it(&two_halves(400, 300, ImageFormat::Jpeg));

    // What goes in has both, as a camera's picture has.
    let before = noted(&sent).expect("notes");
    let value = |tag| {
        before
            .get_field(tag, exif::In::PRIMARY)
            .map(|field| field.display_value().to_string())
    };
    assert_eq!(
        value(exif::Tag::Orientation).as_deref(),
        Some("row 0 at right and column 0 at top")
    );
    assert_eq!(
        value(exif::Tag::GPSLatitude).as_deref(),
        Some("51 deg 28 min 40 sec")
    );
    assert!(holds(&sent, "xmpmeta"));

    let photo = Photo::of(link, report);
    let answer = photo.send(&client, &sent);
    assert_eq!(answer.status, 201, "{}", answer.body);
    let receipt = answer.json();
    assert_eq!(
        (receipt["width"].as_u64(), receipt["height"].as_u64()),
        (Some(300), Some(400))
    );
    assert_eq!(receipt["id"], photo.id.to_string());

    let seen = client.get(&photo.path);
    assert_eq!(
        (seen.status, seen.header("content-type")),
        (200, "image/jpeg")
    );
    assert!(noted(&seen.bytes).is_none(), "no notes");
    for text in ["Exif", "xmpmeta", "GPS", "ns.adobe.com", "ICC_PROFILE"] {
        assert!(!holds(&seen.bytes, text), "{text}");
    }
    // Orientation 6: what was stored left is on top.
    let picture = image::load_from_memory(&seen.bytes)
        .expect("a picture")
        .into_rgb8();
    assert_eq!(picture.dimensions(), (300, 400));
    let Rgb([red, _, blue]) = *picture.get_pixel(150, 50);
    assert!(red > blue, "red on top");
    let Rgb([red, _, blue]) = *picture.get_pixel(150, 350);
    assert!(red < blue, "blue below");
}

#[test]
fn what_cannot_be_taken_has_its_sentence_and_leaves_nothing() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let link = &server.client_links()[0];
    let report = send_report(&client, link, &report("It itches.", 4));
    let whole = two_halves(64, 48, ImageFormat::Jpeg);
    let png = two_halves(64, 48, ImageFormat::Png);
    let webp = two_halves(64, 48, ImageFormat::WebP);
    let moving = {
        // `acTL` (W3C PNG section 11.3.6.1) behind the header, with its checksum as other libraries compute it.
        let animation = [
            0, 0, 0, 8, b'a', b'c', b'T', b'L', 0, 0, 0, 2, 0, 0, 0, 0, 0xf3, 0x8d, 0x93, 0x70,
        ];
        [&png[..33], &animation, &png[33..]].concat()
    };
    for (what, bytes, status, name) in [
        (
            "a text",
            b"Not a picture at all.".to_vec(),
            422,
            "photo_unreadable",
        ),
        (
            "another kind",
            b"GIF89a\x01\0\x01\0\x80\0\0".to_vec(),
            422,
            "photo_unreadable",
        ),
        ("nothing", Vec::new(), 422, "photo_unreadable"),
        (
            "a drawing",
            b"<svg xmlns='http://www.w3.org/2000/svg'><script>x()</script></svg>".to_vec(),
            422,
            "photo_unreadable",
        ),
        (
            "half a JPEG",
            whole[..whole.len() / 2].to_vec(),
            422,
            "photo_incomplete",
        ),
        (
            "half a PNG",
            png[..png.len() / 2].to_vec(),
            422,
            "photo_incomplete",
        ),
        (
            "half a WebP",
            webp[..webp.len() / 2].to_vec(),
            422,
            "photo_incomplete",
        ),
        (
            "a huge one in few bytes",
            png_that_says(50_000, 50_000),
            422,
            "photo_too_many_pixels",
        ),
        ("a moving one", moving, 422, "photo_moving"),
    ] {
        let photo = Photo::of(link, report);
        let answer = photo.send(&client, &bytes);
        assert_eq!(
            (answer.status, problem(&answer).as_str()),
            (status, name),
            "{what}: {}",
            answer.body
        );
        assert_eq!(photo.offset(&client), (0, false), "{what}");
        assert_eq!(files(&server, "photos-arriving"), 0, "{what}");
    }

    // Too many bytes: as a whole, said before or found out on the way; and in one piece, also of a hundred megabytes.
    let photo = Photo::of(link, report);
    let headers = |offset: &'static str, length: &'static str| {
        [
            ("content-type", "application/partial-upload"),
            ("sec-fetch-site", "same-origin"),
            ("upload-offset", offset),
            ("upload-complete", "?0"),
            ("upload-length", length),
        ]
    };
    let said = client.send_bytes(
        Method::PATCH,
        &photo.path,
        &headers("0", "10000001"),
        vec![7; 1000],
    );
    assert_eq!(
        (said.status, problem(&said).as_str()),
        (413, "photo_too_heavy"),
        "{}",
        said.body
    );
    let grown = photo.send(&client, &vec![7; 10_000_001]);
    assert_eq!(
        (grown.status, problem(&grown).as_str()),
        (413, "photo_too_heavy"),
        "{}",
        grown.body
    );
    assert!(grown.body.contains("10 MB"), "{}", grown.body);
    for (size, status, name, said) in [
        (PIECE + 1, 400, "malformed", "262144 bytes"),
        (100_000_000, 413, "photo_too_heavy", "10 MB"),
    ] {
        let piece = photo.piece(&client, 0, false, &vec![7; size]);
        assert_eq!(
            (piece.status, problem(&piece).as_str()),
            (status, name),
            "{size}"
        );
        assert!(piece.body.contains(said), "{}", piece.body);
    }
    assert_eq!(
        (
            rows(&server),
            files(&server, "photos"),
            files(&server, "photos-arriving")
        ),
        (0, 0, 0)
    );

    // The report stands, and a good photo is still taken.
    assert_eq!(Photo::of(link, report).send(&client, &whole).status, 201);
    assert_eq!((rows(&server), files(&server, "photos")), (1, 1));
}

#[test]
fn it_goes_on_where_it_was_cut() {
    let home = Home::new();
    let server = Server::start(&home, &["--demo"]);
    let client = Visitor::at(&server);
    let link = &server.client_links()[0];
    let report = send_report(&client, link, &report("It itches.", 2));
    let bytes = grainy(700, 700, 1);
    assert!(bytes.len() > 2 * PIECE, "several pieces");
    let photo = Photo::of(link, report);

    assert_eq!(photo.offset(&client), (0, false));
    let first = photo.piece(&client, 0, false, &bytes[..PIECE]);
    assert_eq!(
        (first.status, first.header("upload-offset")),
        (204, PIECE.to_string().as_str())
    );
    assert_eq!(first.header("upload-complete"), "?0");
    assert_eq!(photo.offset(&client), (PIECE as u64, false));

    // The answer was lost: the same piece again, and one that leaves a gap, are told where to go on.
    for wrong in [0, PIECE - 1, PIECE + 1] {
        let answer = photo.piece(&client, wrong, false, &bytes[..100]);
        assert_eq!(
            (answer.status, problem(&answer).as_str()),
            (409, "photo_wrong_offset"),
            "{wrong}"
        );
        assert_eq!(answer.header("upload-offset"), PIECE.to_string());
    }
    // The connection breaks in the middle of the next piece.
    let cut = thread::spawn({
        let (address, path) = (server.address.clone(), photo.path.clone());
        let half = bytes[PIECE..PIECE + 1000].to_vec();
        move || half_a_request(&address, &path, PIECE, PIECE, &half)
    });
    cut.join().expect("a broken connection");
    assert_eq!(
        photo.offset(&client),
        (PIECE as u64, false),
        "nothing of it was kept"
    );

    let answer = photo.send(&client, &bytes);
    assert_eq!(answer.status, 201, "{}", answer.body);
    assert_eq!(photo.offset(&client), (bytes.len() as u64, true));
    assert_eq!(files(&server, "photos-arriving"), 0);
    let picture = image::load_from_memory(&client.get(&photo.path).bytes).expect("a picture");
    assert_eq!((picture.width(), picture.height()), (700, 700));

    // The receipt was lost: whatever is sent again, it is the same photo.
    for (offset, is_last) in [(0, true), (bytes.len(), true), (7, false)] {
        let again = photo.piece(&client, offset, is_last, &bytes[..10]);
        assert_eq!((again.status, again.header("upload-complete")), (200, "?1"));
        assert_eq!(again.json(), answer.json());
    }
    // And the same picture under another id is kept once.
    let twin = Photo::of(link, report).send(&client, &bytes);
    assert_eq!(
        (twin.status, &twin.json()["id"]),
        (200, &answer.json()["id"])
    );
    assert_eq!((rows(&server), files(&server, "photos")), (1, 1));
}

/// Sends the head of a piece and only some of its bytes, and goes away.
fn half_a_request(address: &str, path: &str, offset: usize, said: usize, bytes: &[u8]) {
    use std::io::Write;
    let host = address.trim_start_matches("http://");
    let mut connection = std::net::TcpStream::connect(host).expect("a connection");
    let head = format!(
        "PATCH {path} HTTP/1.1\r\nhost: {host}\r\ncontent-type: application/partial-upload\r\nsec-fetch-site: same-origin\r\n\
         upload-offset: {offset}\r\nupload-complete: ?0\r\ncontent-length: {said}\r\n\r\n"
    );
    connection.write_all(head.as_bytes()).expect("the head");
    connection.write_all(bytes).expect("some bytes");
}

#[test]
fn only_who_sent_it_and_the_artist_see_it() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let links = server.client_links();
    let (link, other) = (&links[0], &links[2]);
    let first = send_report(&client, link, &report("It itches.", 2));
    let second = send_report(&client, link, &report("It burns.", 2));
    let elsewhere = send_report(&client, other, &report("Something else.", 2));
    let photo = Photo::of(link, first);
    let bytes = two_halves(64, 48, ImageFormat::Jpeg);
    assert_eq!(photo.send(&client, &bytes).status, 201);

    let seen = client.get(&photo.path);
    assert_eq!(seen.status, 200);
    for (name, value) in [
        ("content-type", "image/jpeg"),
        ("x-content-type-options", "nosniff"),
        ("content-disposition", "inline; filename=\"photo.jpg\""),
        ("cache-control", "private, no-store"),
        ("content-security-policy", "default-src 'none'; sandbox"),
        ("cross-origin-resource-policy", "same-origin"),
    ] {
        assert_eq!(seen.header(name), value, "{name}");
    }
    let artists = format!("/studio/photos/{}", photo.id);
    let signed_in = Visitor::demo_artist(&server).get(&artists);
    assert_eq!(
        (signed_in.status, signed_in.bytes == seen.bytes),
        (200, true)
    );
    assert_eq!(client.get(&artists).location(), "/studio/sign-in");

    // By another link, another report, or no link at all.
    for (link, report, status) in [
        (other, first, 404),
        (other, elsewhere, 404),
        (link, second, 404),
        (&"/MY/AAAAAAAAAAAAAAAAAAAAAAAAAA".to_owned(), first, 404),
    ] {
        let path = Photo::called(link, report, photo.id).path;
        let answer = client.get(&path);
        assert_eq!(answer.status, status, "{path}");
        assert!(!answer.bytes.starts_with(b"\xff\xd8"), "{path}");
    }
    // Nor can anything be sent there: a report of another visit, one that is not there, an id that is in use.
    for report in [first, Uuid::new_v4()] {
        let foreign = Photo::of(other, report);
        assert_eq!(foreign.piece(&client, 0, true, &bytes).status, 404);
        assert_eq!(
            client.ask(Method::HEAD, &foreign.path, &[], None).status,
            404
        );
    }
    let taken =
        Photo::called(other, elsewhere, photo.id).piece(&client, 0, true, &grainy(40, 40, 2));
    assert_eq!(
        (taken.status, problem(&taken).as_str()),
        (409, "photo_id_in_use")
    );
    // Not from another site's page either.
    let headers = [
        ("content-type", "application/partial-upload"),
        ("sec-fetch-site", "cross-site"),
        ("upload-offset", "0"),
        ("upload-complete", "?1"),
    ];
    let foreign = client.send_bytes(
        Method::PATCH,
        &Photo::of(link, second).path,
        &headers,
        bytes.clone(),
    );
    assert_eq!(foreign.status, 403);
    assert_eq!(
        (
            rows(&server),
            files(&server, "photos"),
            files(&server, "photos-arriving")
        ),
        (1, 1, 0)
    );

    // A link that was closed shows nothing any more.
    let artist = Visitor::demo_artist(&server);
    let visit: Uuid = server
        .home
        .record()
        .query_row("select visit from photos", [], |row| row.get(0))
        .expect("the visit");
    let page = format!("/studio/visits/{visit}");
    artist
        .post_signed(&page, &format!("{page}/revoke"), &[])
        .location();
    assert_eq!(client.get(&photo.path).status, 410);
    assert_eq!(artist.get(&artists).status, 200);
}

#[test]
fn photos_need_the_tick_and_there_are_four() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let link = &server.client_links()[0];
    let without = send_report(&client, link, &report("No photos.", 0));
    let refused =
        Photo::of(link, without).piece(&client, 0, true, &two_halves(64, 48, ImageFormat::Jpeg));
    assert_eq!(
        (refused.status, problem(&refused).as_str()),
        (409, "photo_not_agreed")
    );

    let with = send_report(&client, link, &report("Four photos.", 4));
    for seed in 1..=4 {
        assert_eq!(
            Photo::of(link, with)
                .send(&client, &grainy(60, 40, seed))
                .status,
            201
        );
    }
    let fifth = Photo::of(link, with).piece(&client, 0, true, &grainy(60, 40, 5));
    assert_eq!(
        (fifth.status, problem(&fifth).as_str()),
        (409, "photo_too_many")
    );
    assert!(fifth.body.contains('4'), "{}", fifth.body);
    assert_eq!(
        (
            rows(&server),
            files(&server, "photos"),
            files(&server, "photos-arriving")
        ),
        (4, 4, 0)
    );
}

#[test]
fn what_is_wrong_with_a_piece_is_named() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let link = &server.client_links()[0];
    let report = send_report(&client, link, &report("It itches.", 1));
    let path = Photo::of(link, report).path;
    let good = [
        ("content-type", "application/partial-upload"),
        ("upload-offset", "0"),
        ("upload-complete", "?0"),
        ("upload-length", "20"),
    ];
    for (name, value, status, said) in [
        (
            "content-type",
            Some("image/jpeg"),
            415,
            "application/partial-upload",
        ),
        ("content-type", None, 415, "application/partial-upload"),
        ("upload-offset", None, 400, "`upload-offset` is missing"),
        ("upload-offset", Some("-1"), 400, "`upload-offset` is `-1`"),
        ("upload-complete", None, 400, "`upload-complete` is missing"),
        (
            "upload-complete",
            Some("yes"),
            400,
            "`upload-complete` is `yes`",
        ),
        (
            "upload-complete",
            Some("?1"),
            400,
            "`upload-length` is `20`",
        ),
        ("upload-length", Some("9"), 400, "`upload-length` is `9`"),
    ] {
        let mut headers: Vec<(&str, &str)> = good
            .iter()
            .copied()
            .filter(|(one, _)| *one != name)
            .collect();
        headers.extend(value.map(|value| (name, value)));
        let answer = client.send_bytes(Method::PATCH, &path, &headers, vec![7; 10]);
        assert_eq!(answer.status, status, "{name} {value:?}: {}", answer.body);
        problem(&answer);
        assert!(
            answer.body.contains(said),
            "{name} {value:?}: {}",
            answer.body
        );
    }
    assert_eq!(files(&server, "photos-arriving"), 0);
    assert_eq!(
        client
            .send_bytes(Method::PATCH, &path, &good, vec![7; 10])
            .status,
        204
    );
    let no_id = path.rsplit_once('/').expect("a path").0.to_owned() + "/first";
    assert!(
        client
            .send_bytes(Method::PATCH, &no_id, &good, vec![7; 10])
            .status
            >= 400
    );
    assert_eq!(client.ask(Method::PUT, &path, &good, None).status, 405);
}

/// Pages are answered while photos are worked on; nothing is lost or doubled.
#[test]
fn many_at_once_while_pages_are_read() {
    let server = Server::demo();
    let links = server.client_links();
    let links = &links[..3];
    let senders: Vec<_> = links
        .iter()
        .enumerate()
        .map(|(number, link)| {
            let (address, link) = (server.address.clone(), link.clone());
            thread::spawn(move || {
                let client = Visitor::to(&address);
                let report = send_report(&client, &link, &report("It itches.", 4));
                for seed in 0..4 {
                    let photo = Photo::of(&link, report);
                    let bytes = grainy(900, 700, number as u32 * 10 + seed + 1);
                    let sent = (0..40).map(|_| photo.send(&client, &bytes).status);
                    // Whoever finds no place tries again.
                    assert!(sent.into_iter().any(|status| status == 201), "{link}");
                }
            })
        })
        .collect();
    let reader = Visitor::at(&server);
    let mut read = 0;
    while !senders.iter().all(thread::JoinHandle::is_finished) {
        assert_eq!(reader.get(&links[read % links.len()]).status, 200);
        read += 1;
    }
    for sender in senders {
        sender.join().expect("all sent");
    }
    assert!(read > 12, "pages were read meanwhile: {read}");
    assert_eq!(
        (
            rows(&server),
            files(&server, "photos"),
            files(&server, "photos-arriving")
        ),
        (12, 12, 0)
    );
}

#[test]
fn what_a_stop_left_behind_is_swept() {
    let home = Home::new();
    let server = Server::start(&home, &[]);
    let (photos, arriving) = (
        home.data().join("photos"),
        home.data().join("photos-arriving"),
    );
    std::fs::write(photos.join("0123.draft"), "half").expect("a file");
    std::fs::write(arriving.join("yesterday"), "half").expect("a file");
    std::fs::write(arriving.join("now"), "half").expect("a file");
    let long_ago = std::time::SystemTime::now() - std::time::Duration::from_secs(25 * 60 * 60);
    let old = std::fs::File::options()
        .write(true)
        .open(arriving.join("yesterday"))
        .expect("the file");
    old.set_modified(long_ago).expect("its time");
    server.stop();
    let server = Server::start(&home, &[]);
    assert_eq!(files(&server, "photos"), 0);
    assert!(arriving.join("now").exists() && !arriving.join("yesterday").exists());
}

/// The phone keeps to the limits that the studio keeps to.
#[test]
fn the_phones_limits_are_the_studios() {
    use shared_types::photos::{BYTES_MAX, PHOTOS_MAX, PIECE_MAX, SIDE_MAX};
    let script = std::fs::read_to_string(
        std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../assets/photos.js"),
    )
    .expect("the phone's script");
    for (name, value) in [
        ("PHOTOS_MAX", u64::from(PHOTOS_MAX)),
        ("BYTES_MAX", BYTES_MAX),
        ("SIDE_MAX", u64::from(SIDE_MAX)),
        ("PIECE_MAX", PIECE_MAX),
    ] {
        let said = script
            .split(&format!("const {name} = "))
            .nth(1)
            .and_then(|rest| rest.split(';').next());
        let said = said.unwrap_or_else(|| panic!("{name} is not there"));
        let said: u64 = said
            .split('*')
            .map(|factor| {
                factor
                    .trim()
                    .replace('_', "")
                    .parse::<u64>()
                    .expect("a number")
            })
            .product();
        assert_eq!(said, value, "{name}");
    }
    assert_eq!(PIECE as u64, PIECE_MAX);
}
