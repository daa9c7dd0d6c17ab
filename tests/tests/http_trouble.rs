//! What to do when something is not right: told before anything is kept, decided again by the studio, asked again later.

use chrono::{DateTime, Utc};
use serde_json::{Value, json};
use tests::{
    report::{CONSENT, report},
    server::Server,
    visitor::{Answer, Visitor},
    words::say,
};
use uuid::Uuid;

/// The text of the first element with this id.
fn part<'a>(page: &'a Answer, id: &str) -> &'a str {
    let after = page.body.split(&format!("id=\"{id}\"")).nth(1);
    let part = after.expect("the part is there");
    part.split("</section>").next().unwrap_or(part)
}

/// Whether an element with this mark is shown by what the server drew.
fn is_shown(page: &Answer, mark: &str) -> bool {
    let tag = page.body.split('<').find(|tag| tag.contains(mark));
    let tag = tag.unwrap_or_else(|| panic!("no {mark}"));
    !tag.split('>').next().unwrap_or("").contains("hidden")
}

fn levels(page: &Answer) -> Vec<&'static str> {
    ["expected", "studio", "same_day", "emergency"]
        .into_iter()
        .filter(|level| is_shown(page, &format!("class=\"level\" data-level=\"{level}\"")))
        .collect()
}

#[test]
fn the_emergency_card_comes_first_with_a_number_to_call() {
    let server = Server::demo();
    let page = Visitor::at(&server).get(&format!("{}/trouble", server.client_links()[0]));
    let card = page.body.find("class=\"emergency\"").expect("a card");
    let form = page.body.find("<form").expect("a form");
    let call = page.body.find("href=\"tel:999\"").expect("a number");
    assert!(card < call && call < form);
    // Eyes first, and rinsing before all.
    let first = page.body.find("class=\"ask\"").expect("a question");
    assert!(
        page.body[..first].ends_with("<fieldset id=\"ask-product_in_eye\" "),
        "{}",
        &page.body[first - 80..first]
    );
    let offered = page.body.matches("value=\"not_sure\"").count();
    let questions = page.body.matches("<fieldset id=\"ask-").count();
    assert_eq!(offered, questions, "`not sure` is always among the answers");
    assert!(levels(&page).is_empty() && !is_shown(&page, "id=\"advice\""));
}

/// A plain form is told what to do, and nothing of it is kept.
#[test]
fn advice_comes_before_anything_is_kept() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let way = format!("{}/trouble", server.client_links()[0]);
    let count = "select (select count(*) from reports) + (select count(*) from report_consents)";
    let kept = || -> i64 {
        let record = server.home.record();
        record
            .query_row(count, [], |row| row.get(0))
            .expect("a count")
    };
    let before = kept();
    for (answers, level, advice) in [
        (&[("breathing", "airway")][..], "emergency", "call_now"),
        (
            &[("product_in_eye", "yes"), ("eye_state", "eye_watering")],
            "emergency",
            "rinse",
        ),
        (
            &[("swelling", "lids"), ("trend", "same")],
            "same_day",
            "today",
        ),
        (&[("itch", "6")], "studio", "tell_studio"),
        (&[("swelling", "not_sure")], "studio", "not_sure"),
        (&[], "studio", "not_sure"),
    ] {
        let page = client.post(&way, answers);
        assert_eq!(
            (page.status, levels(&page)),
            (200, vec![level]),
            "{answers:?}"
        );
        assert!(
            is_shown(&page, &format!("data-advice=\"{advice}\"")),
            "{answers:?}"
        );
        assert!(is_shown(&page, "data-advice=\"worse\""), "{answers:?}");
        let told = part(&page, "advice");
        assert!(
            told.contains("href=\"tel:999\"") && told.contains("href=\"tel:02079460417\""),
            "{told}"
        );
        for (question, given) in answers {
            let chosen = format!("name=\"{question}\" value=\"{given}\" checked");
            assert!(page.body.contains(&chosen), "{chosen}");
        }
    }
    assert_eq!(kept(), before, "nothing was kept");
    let refused = client.post(&way, &[("swelling", "huge")]);
    assert_eq!(refused.status, 400);
    assert!(
        refused.text().contains("swelling: given"),
        "{}",
        refused.text()
    );
    assert_eq!(client.post(&way, &[("colour", "red")]).status, 400);
}

#[test]
fn nothing_ordinary_needs_every_danger_answered_no() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let way = format!("{}/trouble", server.client_links()[0]);
    let page = client.get(&way);
    let questions: Vec<&str> = page
        .body
        .split("<fieldset id=\"ask-")
        .skip(1)
        .filter_map(|rest| rest.split('"').next())
        .collect();
    let no = |question: &&str| -> (String, String) {
        let part = page
            .body
            .split(&format!("id=\"ask-{question}\""))
            .nth(1)
            .unwrap_or("");
        let part = part.split("</fieldset>").next().unwrap_or("");
        let offered = ["no", "none", "0", "same"];
        let given = offered
            .iter()
            .find(|given| part.contains(&format!("value=\"{given}\"")));
        ((*question).to_owned(), (*given.expect("a no")).to_owned())
    };
    let all: Vec<(String, String)> = questions.iter().map(no).collect();
    let fields = |without: Option<usize>| -> Vec<(&str, &str)> {
        let kept = all
            .iter()
            .enumerate()
            .filter(|(at, _)| Some(*at) != without);
        kept.map(|(_, (question, given))| (question.as_str(), given.as_str()))
            .collect()
    };
    assert_eq!(levels(&client.post(&way, &fields(None))), ["expected"]);
    for danger in ["breathing", "swelling", "product_in_eye", "burn", "body"] {
        let at = questions.iter().position(|one| *one == danger);
        assert_eq!(
            levels(&client.post(&way, &fields(at))),
            ["studio"],
            "without {danger}"
        );
    }
}

fn kept(server: &Server, id: Uuid) -> Value {
    let record = server.home.record();
    record
        .query_row(
            "select answers, level, rules, content_version, told_level, told_rules, told_content_version from reports where id = ?1",
            [id],
            |row| {
                let text = |at: usize| row.get::<_, Option<String>>(at);
                Ok(json!({"answers": text(0)?, "level": text(1)?, "rules": text(2)?, "version": text(3)?,
                          "told_level": text(4)?, "told_rules": text(5)?, "told_version": text(6)?}))
            },
        )
        .expect("the report")
}

/// The phone decides first; the studio decides again from the answers, and both are kept with the version of the content.
#[test]
fn the_studio_decides_again() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let link = &server.client_links()[0];
    let id = Uuid::new_v4();
    let mut sent = report("My lips feel thick.");
    sent["answers"]["lip_mouth_swelling"] = json!("yes");
    sent["answers"]["treatments"] = json!(["lip_wax"]);
    sent["told"] = json!({"level": "expected", "rules": [], "advice": ["ordinary"], "content_version": "older-1"});
    assert_eq!(
        client.put(&format!("{link}/reports/{id}"), &sent).status,
        201
    );
    let kept = kept(&server, id);
    assert_eq!(kept["level"], "emergency");
    assert!(
        kept["rules"]
            .as_str()
            .is_some_and(|rules| rules.contains("\"E1\""))
    );
    assert_ne!(kept["version"], "older-1");
    let told = [
        &kept["told_level"],
        &kept["told_rules"],
        &kept["told_version"],
    ];
    assert_eq!(told, [&json!("expected"), &json!("[]"), &json!("older-1")]);
    // What was done is the studio's to say: Noor had her brows waxed and tinted.
    assert!(
        kept["answers"]
            .as_str()
            .is_some_and(|answers| answers.contains("[\"brow_wax\",\"brow_tint\"]"))
    );
}

/// GDPR Art. 7(1): the consent can be shown. The text, its version, the language and the time.
#[test]
fn each_consent_is_kept_with_its_text() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let id = Uuid::new_v4();
    let mut sent = report("It itches.");
    sent["consents"]["supplier"] = json!(CONSENT);
    let path = format!("{}/reports/{id}", server.client_links()[0]);
    assert_eq!(client.put(&path, &sent).status, 201);
    let record = server.home.record();
    let mut statement = record
        .prepare("select purpose, version, language, text, given_at from report_consents where report = ?1 order by purpose")
        .expect("a statement");
    let rows: Vec<(String, String, String, String, i64)> = statement
        .query_map([id], |row| {
            Ok((
                row.get(0)?,
                row.get(1)?,
                row.get(2)?,
                row.get(3)?,
                row.get(4)?,
            ))
        })
        .expect("rows")
        .collect::<Result<_, _>>()
        .expect("consents");
    let purposes: Vec<&str> = rows.iter().map(|row| row.0.as_str()).collect();
    assert_eq!(purposes, ["report", "supplier"], "unticked is not kept");
    for (purpose, version, language, text, given_at) in &rows {
        assert_eq!((version.as_str(), language.as_str()), (CONSENT, "en"));
        let shown = say(&format!("consent.{purpose}")).replace("{studio}", "Tamsel Lane Brows");
        assert_eq!(*text, shown);
        let given = DateTime::<Utc>::from_timestamp_millis(*given_at).expect("a time");
        assert!((Utc::now() - given).num_minutes() < 5);
    }
    // What another version said is not known here: no text is put under it.
    let other = Uuid::new_v4();
    sent["consents"]["supplier"] = json!("2025-01");
    let path = format!("{}/reports/{other}", server.client_links()[0]);
    assert_eq!(client.put(&path, &sent).status, 201);
    let texts = |purpose: &str| -> (String, bool) {
        let query =
            "select version, text = '' from report_consents where report = ?1 and purpose = ?2";
        let found = record.query_row(query, (other, purpose), |row| {
            Ok((row.get(0)?, row.get(1)?))
        });
        found.expect("a consent")
    };
    assert_eq!(texts("supplier"), ("2025-01".to_owned(), true));
    assert_eq!(texts("report"), (CONSENT.to_owned(), false));
    let changed = record.execute("update report_consents set text = ''", []);
    assert!(changed.is_err_and(|error| error.to_string().contains("never overwritten")));
}

/// Signe's report is from eleven days ago: day 7 is asked for, and whoever says "worse" is told what to do and waits again.
#[test]
fn it_is_asked_again_how_it_goes() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let link = &server.client_links()[4];
    let standing = || client.get(&format!("{link}/standing")).json()["reports"][0].clone();
    let asked = standing();
    assert_eq!(asked["ask"], 168);
    let report = asked["id"].as_str().expect("an id").to_owned();
    let page = client.get(link).text();
    assert!(page.contains(&say("client.follow.ask")), "{page}");

    let to = |hours: u32| format!("{link}/reports/{report}/follow-ups/{hours}");
    assert_eq!(client.post(&to(168), &[("how", "fine")]).status, 400);
    assert_eq!(client.post(&to(100), &[("how", "worse")]).status, 404);
    let other = to(168).replace(link.as_str(), &server.client_links()[3]);
    assert_eq!(client.post(&other, &[("how", "worse")]).status, 404);

    let waiting = || -> i64 {
        let record = server.home.record();
        record
            .query_row("select count(*) from waiting_reports", [], |row| row.get(0))
            .expect("a count")
    };
    let before = waiting();
    client.post(&to(168), &[("how", "worse")]).location();
    assert_eq!(waiting(), before + 1, "it waits again");
    let told = standing();
    assert_eq!(told["ask"], 0);
    let now: Vec<&str> = told["now"]
        .as_array()
        .expect("advice")
        .iter()
        .filter_map(Value::as_str)
        .collect();
    assert!(
        now.contains(&say("urgency.advice.worse").as_str()),
        "{now:?}"
    );
    assert!(
        told["steps"].to_string().contains("worse"),
        "{}",
        told["steps"]
    );

    // The same from a phone that did not hear of it gets its receipt, and changes nothing.
    let again = client.put(&to(168), &json!({"how": "worse"}));
    assert_eq!(
        (again.status, again.json()["id"].as_str()),
        (200, Some(report.as_str()))
    );
    assert_eq!(standing()["steps"], told["steps"]);
    assert_eq!(client.put(&to(168), &json!({"how": "well"})).status, 400);
}

/// Kemi's report is not a day old; the page says when it asks.
#[test]
fn it_is_not_asked_too_early() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let link = &server.client_links()[1];
    let card = client.get(&format!("{link}/standing")).json()["reports"][0].clone();
    assert_eq!(card["ask"], 0);
    assert!(
        card["steps"].to_string().contains("asks again"),
        "{}",
        card["steps"]
    );
    let early = format!(
        "{link}/reports/{}/follow-ups/24",
        card["id"].as_str().expect("an id")
    );
    assert_eq!(client.post(&early, &[("how", "worse")]).status, 404);
}

/// Reference, section 1.1: a first reaction may take up to about 21 days. Later ones are taken, with advice to see a
/// clinician as well.
#[test]
fn after_three_weeks_a_clinician_is_named_as_well() {
    let server = Server::demo();
    let client = Visitor::at(&server);
    let day_31 = &server.client_links()[5];
    let page = client.post(&format!("{day_31}/trouble"), &[("itch", "1")]);
    assert!(is_shown(&page, "data-advice=\"see_clinician\""));
    let id = Uuid::new_v4();
    assert_eq!(
        client
            .put(&format!("{day_31}/reports/{id}"), &report("Still itchy."))
            .status,
        201
    );
    assert!(
        kept(&server, id)["rules"]
            .as_str()
            .is_some_and(|rules| rules.contains("\"T14\""))
    );
    let day_12 = client.post(
        &format!("{}/trouble", server.client_links()[4]),
        &[("itch", "1")],
    );
    assert!(!is_shown(&day_12, "data-advice=\"see_clinician\""));
}
