//! The JSON API against its OpenAPI description. Schemathesis, a general-purpose library that shares nothing with us, makes
//! requests of its own out of the description, right ones and wrong ones, asks the real server, and compares what comes back.

use std::{
    fs,
    process::{Command, Output},
};

use chrono::{Days, Utc};
use serde_json::{Value, json};
use tempfile::TempDir;
use tests::{
    python,
    report::report,
    server::{Server, binary},
    visitor::Visitor,
};
use uuid::Uuid;

/// Where right data may be refused all the same: what the schema cannot say (a report of nothing, photos without their
/// consent), a report or a question that is not there, an id that is another's, too many at once.
const CONFIGURATION: &str = r#"
[auth.openapi.session]
api_key = "SESSION"

[checks.positive_data_acceptance]
expected-statuses = ["2xx", "303", "404", "409", "422", "429", "503"]

# The list that is usual, and what is too long.
[checks.negative_data_rejection]
expected-statuses = [
    "400", "401", "403", "404", "405", "406", "409", "410", "413", "415", "422", "428", "429", "5xx",
]
"#;

/// What the server says of itself.
fn described(server: &Server) -> Value {
    serde_json::from_str(&Visitor::at(server).get("/openapi.json").body).expect("JSON")
}

/// The description for this server: its own links, visits, reports, and days that are to come, so that what is made from it
/// gets past the door.
fn fitted(server: &Server) -> Value {
    let mut description = described(server);
    let links = server.client_links();
    let secrets: Vec<String> = links.iter().map(|link| secret(link)).collect();
    let asked_after = secrets.iter().find_map(|one| asked_after(server, one));
    let (told, report, hours) = asked_after.expect("a report that is asked after");
    let photographed = announced(server, &secrets[0]);
    let visits: Vec<Uuid> = column(server, "select id from visits");
    let paths = description["paths"].as_object_mut().expect("paths");
    for (path, operations) in paths {
        let parameters = operations.get_mut("parameters");
        let parameters = parameters
            .and_then(Value::as_array_mut)
            .into_iter()
            .flatten();
        for parameter in parameters {
            let known = match parameter["name"].as_str() {
                Some("secret") if path.contains("/photos/") => json!([photographed.0]),
                Some("id") if path.contains("/photos/") => json!([photographed.1]),
                Some("secret") if path.contains("/follow-ups/") => json!([told]),
                Some("hours") => json!([hours]),
                Some("secret") => json!(secrets),
                Some("id") if path.starts_with("/studio/visits/") => json!(visits),
                Some("id") if path.contains("/follow-ups/") => json!([report]),
                _ => continue,
            };
            parameter["schema"] = json!({ "enum": known });
        }
    }
    // Whether its length is right depends on the piece, which a schema cannot say.
    let photos = &mut description["paths"]["/MY/{secret}/reports/{id}/photos/{photo}"];
    let headers = photos["patch"]["parameters"].as_array_mut();
    headers
        .expect("headers")
        .retain(|one| one["name"] != "Upload-Length");
    let days: Vec<String> = (2..30)
        .filter_map(|days| Utc::now().date_naive().checked_add_days(Days::new(days)))
        .map(|day| day.to_string())
        .collect();
    description["components"]["schemas"]["Preferred"]["properties"]["date"] = json!({"enum": days});
    description
}

fn secret(link: &str) -> String {
    link.rsplit('/').next().expect("a secret").to_owned()
}

/// A report that photos are to follow, and the secret that it was sent with.
fn announced(server: &Server, secret: &str) -> (String, Uuid) {
    let id = Uuid::from_u128(20_261_126);
    let mut report = report("It stings.");
    report["consents"]["photos"] = json!("1");
    report["photos"] = json!(4);
    let answer = Visitor::at(server).put(&format!("/MY/{secret}/reports/{id}"), &report);
    assert_eq!(answer.status, 201, "{}", answer.body);
    (secret.to_owned(), id)
}

/// A report of a link's holder of which it is asked now how it goes: the secret, the report, and the hours.
fn asked_after(server: &Server, secret: &str) -> Option<(String, Value, Value)> {
    let standing = Visitor::at(server).get(&format!("/MY/{secret}/standing"));
    let standing = standing.json();
    let mut reports = standing["reports"].as_array().expect("reports").iter();
    let asked = reports.find(|report| report["ask"] != 0)?;
    Some((secret.to_owned(), asked["id"].clone(), asked["ask"].clone()))
}

fn column(server: &Server, query: &str) -> Vec<Uuid> {
    let record = server.home.record();
    let mut rows = record.prepare(query).expect("a query");
    let found = rows.query_map([], |row| row.get(0)).expect("rows");
    found.map(|id| id.expect("an id")).collect()
}

fn count(server: &Server, query: &str) -> i64 {
    let counted = server.home.record().query_row(query, [], |row| row.get(0));
    counted.expect("a number")
}

/// Asks the server, as often for each operation, always with the same seed.
fn asked(server: &Server, description: &Value, options: &[&str]) -> Output {
    let folder = TempDir::new().expect("a folder");
    let write = |name: &str, text: &str| {
        let file = folder.path().join(name);
        fs::write(&file, text).expect("written");
        file
    };
    let description = write("described.json", &description.to_string());
    let session = Visitor::demo_artist(server).cookie().expect("a session");
    let (_, token) = session.split_once('=').expect("a name and a token");
    let configuration = write("asked.toml", &CONFIGURATION.replace("SESSION", token));
    write("ids.py", include_str!("ids.py"));
    Command::new(python::program("st"))
        .arg("--config-file")
        .arg(configuration)
        .arg("run")
        .arg(description)
        .args(["--url", &server.address, "--seed", "20261126"])
        .args(["--suppress-health-check", "all", "--request-timeout", "60"])
        .args(options)
        .env("SCHEMATHESIS_HOOKS", "ids")
        .env("PYTHONPATH", folder.path())
        .env("PYTHONUTF8", "1")
        .env("NO_COLOR", "1")
        .current_dir(folder.path())
        .output()
        .expect("Schemathesis starts")
}

fn said(output: &Output) -> String {
    [&output.stdout, &output.stderr]
        .map(|text| String::from_utf8_lossy(text).into_owned())
        .concat()
}

#[test]
fn the_server_keeps_to_its_description() {
    let server = Server::demo();
    let description = fitted(&server);
    let before = count(&server, "select count(*) from reports");
    let output = asked(&server, &description, &["--max-examples", "60"]);
    let said = said(&output);
    assert!(output.status.success(), "{said}");

    // It came past the door, not only up to it.
    let operations = description["paths"].as_object().expect("paths").values();
    let operations: usize = operations
        .flat_map(|path| path.as_object().expect("operations").keys())
        .filter(|key| *key != "parameters")
        .count();
    assert!(said.contains(&format!("Tested: {operations}")), "{said}");
    let taken = count(&server, "select count(*) from reports") - before;
    let wishes = count(&server, "select count(*) from wishes");
    let followed = count(&server, "select count(*) from follow_ups");
    println!("{taken} reports, {wishes} wishes, {followed} follow-ups were taken");
    assert!(taken >= 20 && wishes >= 10 && followed >= 1, "{said}");
}

/// What it found, it would find: a description that is wrong about one thing is refuted.
#[test]
fn a_wrong_description_is_found_out() {
    let server = Server::demo();
    let mut description = fitted(&server);
    let receipt = &mut description["components"]["schemas"]["Receipt"];
    receipt["properties"]["received"] = json!({"type": "string"});
    let only = [
        "--include-operation-id",
        "sendReport",
        "--max-examples",
        "5",
    ];
    let output = asked(&server, &description, &only);
    let said = said(&output);
    assert_eq!(output.status.code(), Some(1), "{said}");
    assert!(said.contains("Response violates schema"), "{said}");
}

#[test]
fn the_command_line_prints_what_the_server_serves() {
    let printed = Command::new(binary())
        .arg("openapi")
        .output()
        .expect("it starts");
    let printed: Value = serde_json::from_slice(&printed.stdout).expect("JSON");
    assert_eq!(printed, described(&Server::demo()));
}
