//! A report whose times cannot be: a phone's clock is wrong, or somebody slipped. The client is heard all the same.

use serde_json::{Value, json};
use tests::{server::Server, visitor::Visitor};

#[test]
fn a_sign_later_than_now_is_taken_as_just_begun() {
    let server = Server::demo();
    let link = server.client_links().remove(0);
    let path = link.trim_start_matches(&server.address);
    let report = json!({
        "answers": {"hours_since_visit": 0.5, "onset_hours": 40, "itch": 3},
        "places": [], "words": "", "reach": "",
        "consents": {"report": "1", "photos": null, "supplier": null},
    });
    let id = "5f7a3f0e-3c51-4a8e-9d0a-6a1c7f0f6c01";
    let answer = Visitor::at(&server).put(&format!("{path}/reports/{id}"), &report);
    assert_eq!(answer.status, 201, "{}", answer.body);
    let record = server.home.record();
    let kept: String = record
        .query_row(
            "select answers from reports order by received_at desc",
            [],
            |row| row.get(0),
        )
        .expect("a report");
    let kept: Value = serde_json::from_str(&kept).expect("JSON");
    assert_eq!(kept["onset_hours"], kept["hours_since_visit"], "{kept}");
}
