//! The log holds one line for each request and nothing that is secret.

use std::path::Path;

use serde_json::json;
use tests::{
    begin::{EMAIL, PASSWORD, begin, link_on},
    server::{Home, Server},
    visitor::Visitor,
};
use uuid::Uuid;

/// Uses every kind of secret and personal word once; gives them all.
fn use_everything(server: &Server) -> Vec<String> {
    let visitor = begin(server);
    let token = visitor.cookie().expect("a session");
    let form = visitor.get("/studio/visits/new");
    let csrf = form.hidden("csrf");
    let saved = visitor.post(
        "/studio/visits/new",
        &[
            ("csrf", &csrf),
            ("visit_id", &form.hidden("visit_id")),
            ("client", ""),
            ("first_name", "Ottoline"),
            ("reach", "07700 900999"),
            ("date", &form.hidden("date")),
            ("time", &form.hidden("time")),
            ("treatments", "brow_wax"),
            ("note", "notewords"),
        ],
    );
    let path = link_on(&visitor.get(saved.location()));
    let link = path.trim_start_matches("/MY/").to_owned();
    assert_eq!(visitor.get(&path).status, 200);
    visitor.get(&path.to_lowercase());
    visitor.get(&format!("{path}/nothing-here"));
    visitor.post(&format!("{path}/opened"), &[]);
    visitor.post(&format!("{path}/occasion"), &[("date", "datewords")]);
    visitor.get(&format!("{path}/calendar.ics"));
    let mut report = tests::report::report("reportwords");
    report["reach"] = json!("reachwords");
    assert_eq!(
        visitor
            .put(&format!("{path}/reports/{}", Uuid::new_v4()), &report)
            .status,
        201
    );
    visitor.put_text(
        &format!("{path}/reports/{}", Uuid::new_v4()),
        "{\"answers\":{\"swelling\":\"brokenwords\"}}",
    );
    visitor.put_text(
        &format!("{path}/reports/{}", Uuid::new_v4()),
        "{\"words\": brokenwords",
    );
    visitor.post(&format!("{path}/reports"), &[("swelling", "brokenwords")]);
    visitor.get("/MY/ABCDEFGHIJKLMNOPQRSTUVWXYZ");
    visitor.post(
        "/studio/sign-in",
        &[("email", EMAIL), ("password", "wrongwords here")],
    );
    visitor.post("/studio/sign-out", &[("csrf", &csrf)]);
    let token = token.split_once('=').expect("a value").1.to_owned();
    let words = [
        "notewords",
        "reportwords",
        "reachwords",
        "datewords",
        "brokenwords",
        "wrongwords",
        "Ottoline",
        "07700 900999",
        EMAIL,
        "ABCDEFGHIJKLMNOPQRSTUVWXYZ",
    ];
    let mut secrets = vec![
        PASSWORD.to_owned(),
        token,
        csrf,
        link.clone(),
        link.to_lowercase(),
    ];
    secrets.extend(words.map(str::to_owned));
    secrets
}

fn nothing_in(output: &str, secrets: &[String]) {
    for secret in secrets {
        let line = output.lines().find(|line| line.contains(secret.as_str()));
        assert!(
            line.is_none(),
            "`{secret}` is in the log: {:.300}",
            line.unwrap_or_default()
        );
    }
}

#[test]
fn the_log_says_which_route_and_nothing_else() {
    let server = Server::empty();
    let secrets = use_everything(&server);
    let home = server.home.clone();
    assert!(server.stop().success());
    let output = home.output();
    nothing_in(&output, &secrets);
    for line in [
        "method=GET route=\"/MY/{secret}\" status=200",
        "method=PUT route=\"/MY/{secret}/reports/{id}\" status=201",
        "method=POST route=\"/MY/{secret}/reports\" status=400",
        "method=GET route=\"(no route)\" status=404",
        "method=POST route=\"/studio/sign-in\" status=422",
    ] {
        assert!(output.contains(line), "{line} in:\n{output}");
    }
}

/// Somebody who looks for a fault turns everything on; the libraries must not say more than we do.
#[test]
fn not_even_at_its_most_talkative() {
    let server = Server::start_with(
        &Home::new(),
        &[],
        &[("RUST_LOG", "trace"), ("STUDIO_LOG", "trace")],
    );
    let secrets = use_everything(&server);
    Visitor::at(&server).get("/healthz");
    let home = server.home.clone();
    assert!(server.stop().success());
    let output = home.output();
    assert!(
        output.contains("DEBUG answered") && output.contains("/healthz"),
        "it was talkative"
    );
    nothing_in(&output, &secrets);
    // Nor does the folder hold more than the record, its key, its lock and SQLite's own files.
    let mut names: Vec<String> = std::fs::read_dir(home.data())
        .expect("the folder")
        .filter_map(|entry| entry.ok()?.file_name().into_string().ok())
        .filter(|name| {
            Path::new(name)
                .extension()
                .is_none_or(|ending| ending != "sqlite-wal" && ending != "sqlite-shm")
        })
        .collect();
    names.sort();
    let all = [
        "link.key",
        "photos",
        "photos-arriving",
        "record.sqlite",
        "running.lock",
    ];
    assert_eq!(names, all);
}
