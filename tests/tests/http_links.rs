//! The personal link: one address, closed when it was revoked or has run out, and looking at it changes nothing.
//! W3C TAG, "Good Practices for Capability URLs": expire (404 or 410), revoke alone, rate-limit, no side effects.

use reqwest::Method;
use tests::{server::Server, visitor::Visitor, words::say};
use uuid::Uuid;

const NOBODYS: &str = "/MY/AAAAAAAAAAAAAAAAAAAAAAAAAA";

#[test]
fn the_page_has_one_address() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let link = &server.client_links()[0];
    let path = link.trim_start_matches(&server.address);
    // ASVS 5.0 7.2.3: at least 128 bits. 26 characters of 32 kinds are 130.
    let secret = path.strip_prefix("/MY/").expect("below /MY/");
    assert_eq!(secret.len(), 26);
    assert!(
        secret
            .bytes()
            .all(|c| c.is_ascii_uppercase() || (b'2'..=b'7').contains(&c))
    );

    for typed in [
        path.to_lowercase(),
        format!("/my/{secret}"),
        format!("/MY/{}", secret.to_lowercase()),
    ] {
        let answer = client.get(&typed);
        assert_eq!(
            (answer.status, answer.header("location")),
            (308, path),
            "{typed}"
        );
    }
    assert_eq!(client.get(path).status, 200);
    assert_eq!(client.ask(Method::HEAD, path, &[], None).status, 200);
}

#[test]
fn looking_changes_nothing() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let link = &server.client_links()[0];
    let all = "select (select count(*) from link_events), (select count(*) from reports), (select max(rowid) from visits)";
    let look = || {
        server
            .home
            .record()
            .query_row(all, [], |row| {
                Ok((
                    row.get::<_, i64>(0)?,
                    row.get::<_, i64>(1)?,
                    row.get::<_, i64>(2)?,
                ))
            })
            .expect("counts")
    };
    let before = look();
    for _ in 0..3 {
        assert_eq!(client.get(link).status, 200);
        assert_eq!(client.get(&format!("{link}/standing")).status, 200);
        assert_eq!(client.get(&format!("{link}/opened")).status, 405);
    }
    assert_eq!(look(), before);
}

#[test]
fn a_closed_link_says_so_and_a_new_one_opens() {
    let server = Server::demo();
    let artist = Visitor::demo_artist(&server);
    let client = Visitor::at(&server);
    let link = &server.client_links()[0];
    let other = &server.client_links()[1];
    let today = artist.get("/studio").body;
    let visit = today
        .split("/studio/visits/")
        .skip(1)
        .filter_map(|rest| rest.get(..36))
        .find(|id| Uuid::parse_str(id).is_ok())
        .expect("a visit")
        .to_owned();
    let page = format!("/studio/visits/{visit}");
    assert!(
        artist.get(&page).text().contains("Noor"),
        "the latest visit is the first link's"
    );

    artist
        .post_signed("/studio", &format!("{page}/revoke"), &[])
        .location();
    let gone = client.get(link);
    assert_eq!(gone.status, 410);
    assert!(
        gone.text().contains(&say("notice.link_gone.sentence"))
            && gone.text().contains("020 7946 0417"),
        "{}",
        gone.text()
    );
    assert!(
        gone.body.contains("/pkg/forget."),
        "the phone drops its copy"
    );
    assert_eq!(
        gone.header("clear-site-data"),
        "",
        "other pages of this origin are not this link's to clear"
    );
    assert!(!gone.text().contains("Noor"));
    let report = tests::report::report("");
    let refused = client.put(&format!("{link}/reports/{}", Uuid::new_v4()), &report);
    assert_eq!(
        (refused.status, refused.header("content-type")),
        (410, "application/problem+json")
    );
    assert_eq!(client.post(&format!("{link}/opened"), &[]).status, 410);
    assert_eq!(client.get(&format!("{link}/standing")).status, 410);
    assert_eq!(client.get(other).status, 200, "one link is closed alone");
    assert_eq!(artist.get(&format!("{page}/qr.svg")).status, 404);
    assert!(
        artist
            .get(&page)
            .text()
            .contains(say("artist.link.revoked").split('{').next().expect("words"))
    );

    // A new link is another secret; a second tap makes no third.
    for _ in 0..2 {
        artist
            .post_signed("/studio", &format!("{page}/link"), &[])
            .location();
    }
    assert_eq!(client.get(link).status, 410, "the old one stays closed");
    let links: i64 = server
        .home
        .record()
        .query_row(
            "select count(*) from links where visit = ?1",
            [Uuid::parse_str(&visit).expect("an id")],
            |row| row.get(0),
        )
        .expect("a count");
    assert_eq!(links, 2);
    assert_eq!(artist.get(&format!("{page}/qr.svg")).status, 200);
}

#[test]
fn a_link_runs_out() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let link = &server.client_links()[0];
    let record = server.home.record();
    // No page lets anybody change a link, and the record itself refuses too.
    let shorten = "update links set expires_at = 1";
    assert!(record.execute(shorten, []).is_err());
    record
        .execute("drop trigger links_stay", [])
        .expect("without its guard");
    record.execute(shorten, []).expect("a shorter life");
    let gone = client.get(link);
    assert_eq!(gone.status, 410);
    assert!(gone.body.contains("/pkg/forget."));
}

#[test]
fn a_link_that_is_nobodys_is_not_found_and_guessing_is_limited() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let link = &server.client_links()[0];
    let unknown = client.get(NOBODYS);
    assert_eq!(unknown.status, 404);
    assert!(unknown.body.contains("/pkg/forget."));
    assert!(
        !unknown.text().contains("020 7946 0417"),
        "a guess learns nothing of the studio"
    );
    assert_eq!(client.get("/MY/short").status, 404);
    assert_eq!(
        client.get(&format!("{NOBODYS}/standing")).json()["type"],
        "/problems/link_unknown"
    );

    let statuses: Vec<u16> = (0..60).map(|_| client.get(NOBODYS).status).collect();
    assert!(statuses.contains(&429), "{statuses:?}");
    let limited = client.get(NOBODYS);
    assert_eq!(limited.status, 429);
    assert!(
        limited
            .header("retry-after")
            .parse::<u32>()
            .is_ok_and(|seconds| seconds > 0)
    );
    assert!(limited.text().contains("Please wait"), "{}", limited.text());
    // A salon's wifi is one address for many: links that exist open all the same.
    assert_eq!(client.get(link).status, 200);
}

#[test]
fn the_record_alone_opens_nothing() {
    let server = Server::demo();
    let links = server.client_links();
    server
        .home
        .record()
        .execute_batch("pragma wal_checkpoint(truncate)")
        .expect("a checkpoint");
    let bytes = std::fs::read(server.home.data().join("record.sqlite")).expect("the record");
    for link in links {
        let secret = link.rsplit('/').next().expect("a secret");
        assert!(
            !bytes
                .windows(secret.len())
                .any(|part| part == secret.as_bytes()),
            "a secret in clear"
        );
    }
}

/// A link that was made with another key (its file was lost) can no longer be shown: a wrong code would be worse.
#[test]
fn a_link_of_a_lost_key_is_not_shown_wrong() {
    let server = Server::demo();
    let artist = Visitor::demo_artist(&server);
    let record = server.home.record();
    let visit: Uuid = record
        .query_row(
            "select id from visits order by finished_at desc",
            [],
            |row| row.get(0),
        )
        .expect("a visit");
    record
        .execute(
            "insert into links (id, visit, made_at, made_by, expires_at, secret_hash)
             select ?1, visit, made_at + 1, made_by, expires_at, ?2 from links where visit = ?3",
            (Uuid::new_v4(), [7u8; 32], visit),
        )
        .expect("a link of another key");

    let page = format!("/studio/visits/{visit}");
    let shown = artist.get(&page);
    assert!(
        shown.text().contains(&say("artist.link.key_lost")),
        "{}",
        shown.text()
    );
    assert!(!shown.body.contains("/MY/"));
    assert_eq!(artist.get(&format!("{page}/qr.svg")).status, 404);

    artist
        .post_signed("/studio", &format!("{page}/link"), &[])
        .location();
    assert!(artist.get(&page).body.contains("/MY/"));
    assert_eq!(artist.get(&format!("{page}/qr.svg")).status, 200);
}
