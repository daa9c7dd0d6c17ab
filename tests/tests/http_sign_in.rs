//! The artist's door: the first start, signing in and out, sessions that end, attempts that are limited, and forms
//! that only our own pages can send.

use tests::{
    server::{Home, Server},
    visitor::{Answer, Visitor},
    words::say,
};

fn begin(visitor: &Visitor, change: &[(&str, &str)], code: &str) -> Answer {
    let mut fields = vec![
        ("code", code),
        ("studio_name", "Pellworm Brows"),
        ("artist_name", "Tilda"),
        ("phone", "020 7946 0991"),
        ("contact_email", ""),
        ("region", "uk"),
        ("time_zone", "Europe/London"),
        ("email", "tilda@rake.example"),
        ("password", "long enough a password"),
    ];
    for (name, value) in change {
        if let Some(field) = fields.iter_mut().find(|(field, _)| field == name) {
            field.1 = value;
        }
    }
    visitor.post("/studio/begin", &fields)
}

#[test]
fn nobody_claims_a_studio_without_its_code() {
    let server = Server::empty();
    let visitor = Visitor::at(&server);
    let code = server.set_up_code();
    let too_short = say("fault.password_short").replace("{min}", "12");
    let changes: [(&[(&str, &str)], &str); 7] = [
        (&[("code", "AAAAA-BBBBB-CCCCC")], &say("fault.code")),
        (&[("password", "elevenchars")], &too_short),
        (&[("email", "tilda")], &say("fault.email")),
        (&[("region", "atlantis")], &say("fault.unknown_choice")),
        (
            &[("time_zone", "Europe/Atlantis")],
            &say("fault.unknown_choice"),
        ),
        (&[("phone", "")], &say("fault.contact")),
        (&[("studio_name", " ")], &say("fault.required")),
    ];
    for (change, said) in changes {
        let answer = begin(&visitor, change, &code);
        assert_eq!(answer.status, 422, "{change:?}");
        assert!(
            answer.text().contains(said),
            "{change:?}: {}",
            answer.text()
        );
        assert!(
            !answer.body.contains("long enough a password"),
            "a password never comes back"
        );
        assert!(visitor.cookie().is_none());
    }
    assert!(
        begin(&visitor, &[("password", "elevenchars")], &code)
            .body
            .contains("tilda@rake.example"),
        "the rest does"
    );
    assert_eq!(begin(&visitor, &[], &code).location(), "/studio");
    // Once is enough, code or not; and the code is not shown at the next start.
    assert_eq!(
        begin(
            &Visitor::at(&server),
            &[("email", "other@rake.example")],
            &code
        )
        .location(),
        "/studio/sign-in"
    );
    let artists: i64 = server
        .home
        .record()
        .query_row("select count(*) from artists", [], |row| row.get(0))
        .expect("a count");
    assert_eq!(artists, 1);
    let home = server.home.clone();
    assert!(server.stop().success());
    let again = Server::start(&home, &[]);
    assert_eq!(
        Visitor::at(&again).get("/studio/begin").location(),
        "/studio/sign-in"
    );
    assert_eq!(home.output().matches("set-up code").count(), 1);
}

#[test]
fn wrong_and_unknown_get_the_same_answer() {
    let server = Server::demo();
    let (email, _) = server.sign_in();
    let visitor = Visitor::at(&server);
    let send = |email: &str| {
        visitor.post(
            "/studio/sign-in",
            &[("email", email), ("password", "not the password")],
        )
    };
    let (wrong, unknown) = (send(&email), send("nobody@rake.example"));
    assert_eq!((wrong.status, unknown.status), (422, 422));
    assert_eq!(wrong.text(), unknown.text());
    assert!(wrong.text().contains(&say("fault.sign_in")));
    assert!(wrong.body.contains(&email) && !wrong.body.contains("not the password"));
    assert!(visitor.cookie().is_none());
}

#[test]
fn a_session_begins_anew_and_ends() {
    let server = Server::demo();
    let artist = Visitor::demo_artist(&server);
    let first = artist.cookie().expect("a session");
    assert_eq!(artist.get("/studio").status, 200);
    // ASVS 5.0 7.2.4: a new token at each sign-in, and the one before opens nothing any more.
    let (email, password) = server.sign_in();
    let upper = email.to_uppercase();
    let again = artist.post(
        "/studio/sign-in",
        &[("email", &upper), ("password", &password)],
    );
    assert_eq!(again.location(), "/studio");
    let set = again.header("set-cookie");
    for part in ["Path=/", "HttpOnly", "SameSite=Lax", "Max-Age="] {
        assert!(set.contains(part), "{set}");
    }
    assert!(!set.contains("Secure"), "this address is plain http");
    let second = artist.cookie().expect("a session");
    assert_ne!(first, second);
    artist.set_cookie(&first);
    assert_eq!(artist.get("/studio").location(), "/studio/sign-in");
    // Signing out ends it at the studio, not only in the browser (7.4.1).
    artist.set_cookie(&second);
    assert_eq!(artist.get("/studio/sign-in").location(), "/studio");
    let out = artist.post_signed("/studio", "/studio/sign-out", &[]);
    assert_eq!(out.location(), "/studio/sign-in");
    assert!(out.header("set-cookie").contains("Max-Age=0"));
    assert!(artist.cookie().is_none());
    artist.set_cookie(&second);
    for path in ["/studio", "/studio/visits/new", "/studio/reports"] {
        assert_eq!(artist.get(path).location(), "/studio/sign-in");
    }
    assert_eq!(
        artist.post("/studio/visits/new", &[]).location(),
        "/studio/sign-in"
    );
    let code = artist.get("/studio/visits/00000000-0000-8000-8000-000200000001/opened");
    assert_eq!(
        (code.status, code.header("content-type")),
        (401, "application/problem+json")
    );
}

#[test]
fn a_session_runs_out() {
    let server = Server::demo();
    let hours = |hours: i64| format!("{}", hours * 3_600_000);
    for (column, short, long) in [("used_at", 11, 13), ("made_at", 13 * 24, 15 * 24)] {
        let artist = Visitor::demo_artist(&server);
        let record = server.home.record();
        let age = |by: i64| {
            record
                .execute(
                    &format!("update sessions set {column} = {column} - {}", hours(by)),
                    [],
                )
                .expect("an older session");
        };
        age(short);
        assert_eq!(artist.get("/studio").status, 200, "{column}");
        age(long);
        assert_eq!(
            artist.get("/studio").location(),
            "/studio/sign-in",
            "{column}"
        );
        record
            .execute("delete from sessions", [])
            .expect("no sessions");
    }
}

#[test]
fn guessing_a_password_is_limited() {
    let server = Server::demo();
    let (email, password) = server.sign_in();
    let visitor = Visitor::at(&server);
    let guess = || {
        visitor.post(
            "/studio/sign-in",
            &[("email", &email), ("password", "guess guess guess")],
        )
    };
    let statuses: Vec<u16> = (0..15).map(|_| guess().status).collect();
    assert!(
        statuses[..10].iter().all(|status| *status == 422),
        "{statuses:?}"
    );
    let limited = guess();
    assert_eq!(limited.status, 429);
    assert!(
        limited
            .header("retry-after")
            .parse::<u32>()
            .is_ok_and(|seconds| seconds > 0)
    );
    assert!(
        limited.text().contains("Please wait") && limited.body.contains(&email),
        "{}",
        limited.text()
    );
    // Not even the right one: otherwise the limit would say which it is.
    assert_eq!(
        visitor
            .post(
                "/studio/sign-in",
                &[("email", &email), ("password", &password)]
            )
            .status,
        429
    );
}

#[test]
fn a_form_from_elsewhere_is_refused() {
    let server = Server::demo();
    let artist = Visitor::demo_artist(&server);
    let (email, password) = server.sign_in();
    let csrf = artist.get("/studio").hidden("csrf");
    let link = server.client_links()[0].clone();
    let own_origin = server.address.clone();
    let settle = "/studio/reports/00000000-0000-8000-8000-000400000002/settle";
    assert_eq!(
        artist.get(settle.trim_end_matches("/settle")).status,
        200,
        "the report is there"
    );

    // The token alone does not help another site, nor does the right site help without the token.
    for (headers, fields, status) in [
        (
            vec![("sec-fetch-site", "cross-site")],
            vec![("csrf", csrf.as_str())],
            403,
        ),
        (
            vec![("sec-fetch-site", "same-site")],
            vec![("csrf", csrf.as_str())],
            403,
        ),
        (
            vec![("origin", "https://elsewhere.example")],
            vec![("csrf", csrf.as_str())],
            403,
        ),
        (vec![("sec-fetch-site", "same-origin")], vec![], 403),
        (
            vec![("sec-fetch-site", "same-origin")],
            vec![("csrf", "made up")],
            403,
        ),
        (vec![], vec![], 403),
        (vec![("origin", "null")], vec![("csrf", csrf.as_str())], 303),
        (
            vec![("origin", own_origin.as_str())],
            vec![("csrf", csrf.as_str())],
            303,
        ),
        (vec![], vec![("csrf", csrf.as_str())], 303),
    ] {
        let answer = artist.post_with(settle, &fields, &headers);
        assert_eq!(answer.status, status, "{headers:?} {fields:?}");
    }
    // Forms without a session too.
    let foreign = [("sec-fetch-site", "cross-site")];
    let sign_in = [("email", email.as_str()), ("password", password.as_str())];
    assert_eq!(
        artist
            .post_with("/studio/sign-in", &sign_in, &foreign)
            .status,
        403
    );
    let report = [("redness", "1"), ("consent", "1")];
    let refused = artist.post_with(&format!("{link}/reports"), &report, &foreign);
    assert_eq!(refused.status, 403);
    assert!(
        refused
            .text()
            .contains(&say("notice.foreign_site.sentence")),
        "{}",
        refused.text()
    );
    let empty = Server::start(&Home::new(), &[]);
    let refused = Visitor::at(&empty).post_with("/studio/begin", &[], &foreign);
    assert_eq!(refused.status, 403);
}
