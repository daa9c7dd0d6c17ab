//! What every answer carries, and how files are handed out.

use base64::Engine;
use reqwest::Method;
use sha2::{Digest, Sha256};
use tests::{
    server::{Home, Server},
    visitor::{Answer, Visitor},
};

/// OWASP ASVS 5.0 3.4: content security policy, nosniff, referrer policy, framing.
fn check(answer: &Answer, what: &str) {
    let policy = answer.header("content-security-policy");
    for part in [
        "default-src 'none'",
        "script-src 'self' 'wasm-unsafe-eval'",
        "form-action 'self'",
        "base-uri 'none'",
        "frame-ancestors 'none'",
    ] {
        assert!(
            policy.split("; ").any(|one| one == part),
            "{what}: {part} in {policy}"
        );
    }
    assert!(
        !policy.contains("unsafe-inline") && !policy.contains("'unsafe-eval'"),
        "{what}: {policy}"
    );
    for (name, value) in [
        ("x-content-type-options", "nosniff"),
        ("referrer-policy", "no-referrer"),
        ("x-robots-tag", "noindex, nofollow"),
        ("cross-origin-opener-policy", "same-origin"),
    ] {
        assert_eq!(answer.header(name), value, "{what}: {name}");
    }
    assert!(
        answer
            .header("permissions-policy")
            .contains("geolocation=()"),
        "{what}"
    );
}

/// The addresses of files that a page names.
fn files(page: &Answer) -> Vec<String> {
    let ends = |c: char| c == '"' || c == '\'';
    page.body
        .split("/pkg/")
        .skip(1)
        .filter_map(|rest| rest.split(ends).next())
        .map(|name| format!("/pkg/{name}"))
        .collect()
}

#[test]
fn every_answer_carries_them() {
    let server = Server::demo();
    let artist = Visitor::demo_artist(&server);
    let link = server.client_links()[0].clone();
    let visit = "/studio/visits/00000000-0000-8000-8000-000200000001";
    let pages = [
        ("/", 303),
        (link.as_str(), 200),
        (&link.to_lowercase(), 308),
        (&format!("{link}/standing"), 200),
        (&format!("{link}/calendar"), 303),
        (&format!("{link}/calendar.ics"), 200),
        ("/studio", 200),
        ("/studio/visits/new", 200),
        ("/studio/reports", 200),
        (visit, 200),
        (&format!("{visit}/hand-over"), 200),
        (&format!("{visit}/qr.svg"), 200),
        (&format!("{visit}/opened"), 200),
        ("/studio/visits/not-an-id", 404),
        ("/studio/visits/00000000-0000-8000-8000-00020000ffff", 404),
        ("/studio/reports/00000000-0000-8000-8000-00020000ffff", 404),
        ("/studio/elsewhere", 404),
        ("/MY/AAAAAAAAAAAAAAAAAAAAAAAAAA", 404),
        ("/MY/AAAAAAAAAAAAAAAAAAAAAAAAAA/elsewhere", 404),
        ("/pkg/elsewhere.js", 404),
        ("/pkg/../manifest.json", 404),
        ("/pkg/%2e%2e/manifest.json", 404),
        ("/studio/sign-out", 405),
        ("/healthz", 200),
    ];
    for (path, status) in pages {
        let answer = artist.get(path);
        assert_eq!(answer.status, status, "{path}");
        check(&answer, path);
        assert_eq!(
            answer.header("cache-control"),
            "private, no-store",
            "{path}"
        );
        if status >= 400 {
            assert!(
                answer.text().contains("Please") || answer.text().contains("again"),
                "{path}: {}",
                answer.text()
            );
        }
    }
    assert_eq!(artist.get("/studio/sign-out").header("allow"), "POST");
    let method = artist.ask(Method::TRACE, "/studio", &[], None);
    assert_eq!(method.status, 405);
    check(&method, "TRACE");
}

#[test]
fn files_are_kept_for_ever_and_made_small() {
    let server = Server::demo();
    let visitor = Visitor::at(&server);
    let client = visitor.get(&server.client_links()[0]);
    let artist = visitor.get("/studio/sign-in");
    let mut named = files(&client);
    named.extend(files(&artist));
    assert!(
        named.iter().any(|name| name.ends_with(".js"))
            && named.iter().any(|name| name.ends_with(".css"))
    );
    assert!(
        !files(&client).iter().any(|name| name.contains("artist")),
        "a client downloads nothing of the artist's"
    );
    for name in named {
        let plain = visitor.get(&name);
        assert_eq!(plain.status, 200, "{name}");
        check(&plain, &name);
        assert_eq!(
            plain.header("cache-control"),
            "public, max-age=31536000, immutable",
            "{name}"
        );
        let kind = match name.rsplit('.').next() {
            Some("js") => "text/javascript; charset=utf-8",
            Some("css") => "text/css; charset=utf-8",
            Some("svg") => "image/svg+xml",
            _ => "",
        };
        assert_eq!(plain.header("content-type"), kind, "{name}");
        assert_eq!(plain.header("vary"), "accept-encoding", "{name}");
    }
    let script = files(&client)
        .into_iter()
        .find(|name| name.ends_with(".js"))
        .expect("a script");
    let head = |encoding: &str| {
        visitor.ask(
            Method::HEAD,
            &script,
            &[("accept-encoding", encoding)],
            None,
        )
    };
    assert_eq!(head("gzip, deflate, br").header("content-encoding"), "br");
    assert_eq!(head("gzip").header("content-encoding"), "gzip");
    assert_eq!(head("identity").header("content-encoding"), "");
    let worker = visitor.get("/MY/worker.js");
    assert_eq!(
        (worker.status, worker.header("cache-control")),
        (200, "no-cache")
    );
    assert_eq!(
        worker.header("content-type"),
        "text/javascript; charset=utf-8"
    );
    let robots = visitor.get("/robots.txt");
    assert!(robots.body.contains("Disallow: /MY/") && robots.body.contains("Disallow: /studio"));
}

#[test]
fn the_one_inline_style_is_the_one_that_is_allowed() {
    let server = Server::demo();
    let visitor = Visitor::at(&server);
    let page = visitor.get(&server.client_links()[0]);
    let style = page
        .body
        .split("<style>")
        .nth(1)
        .and_then(|rest| rest.split("</style>").next())
        .expect("a style");
    let hash = base64::engine::general_purpose::STANDARD.encode(Sha256::digest(style.as_bytes()));
    assert!(
        page.header("content-security-policy")
            .contains(&format!("'sha256-{hash}'"))
    );
    assert!(
        !page.body.contains("style=\""),
        "no style attribute, which the policy would drop"
    );
    for handler in ["onclick=", "onload=", "javascript:"] {
        assert!(!page.body.contains(handler), "{handler}");
    }
    // Every script has an address, but for the block of data, which is none.
    for tag in page
        .body
        .split("<script")
        .skip(1)
        .filter_map(|rest| rest.split('>').next())
    {
        assert!(
            tag.contains("src=\"/pkg/") || tag.contains("application/json"),
            "{tag}"
        );
    }
}

#[test]
fn pages_are_made_small_on_the_way() {
    let server = Server::demo();
    let visitor = Visitor::at(&server);
    let link = &server.client_links()[0];
    for (encoding, wanted) in [("br", "br"), ("gzip", "gzip"), ("identity", "")] {
        let answer = visitor.ask(Method::HEAD, link, &[("accept-encoding", encoding)], None);
        assert_eq!(answer.header("content-encoding"), wanted);
    }
}

#[test]
fn https_brings_its_own() {
    let server = Server::start(
        &Home::new(),
        &["--demo", "--public-url", "https://Studio.Example"],
    );
    let visitor = Visitor::at(&server);
    let (email, password) = server.sign_in();
    let answer = visitor.post(
        "/studio/sign-in",
        &[("email", &email), ("password", &password)],
    );
    let cookie = answer.header("set-cookie");
    assert!(
        cookie.starts_with("__Host-") && cookie.contains("; Secure") && cookie.contains("Path=/"),
        "{cookie}"
    );
    // ASVS 5.0 3.4.1: a year at least.
    assert_eq!(
        answer.header("strict-transport-security"),
        "max-age=31536000"
    );
    assert_eq!(visitor.get("/studio").status, 200);
    for link in server.client_links() {
        assert!(link.starts_with("https://studio.example/MY/"), "{link}");
    }
}
