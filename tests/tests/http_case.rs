//! The summary of a case: every field of the official form, times that can be checked, and for the supplier nobody's name.

#![cfg(test)]

use chrono::{DateTime, Duration, Utc};
use serde_json::{Value, json};
use tests::{server::Server, visitor::Visitor, words::say};
use uuid::Uuid;

/// The headings of the European Commission's form for serious undesirable effects (Form A, "Notification of SUE by
/// Responsible Person or Distributor to Competent Authority", read in published copies:
/// https://ja.scribd.com/document/249694371/, https://doczz.it/doc/1375499/), each with where ours stands.
const FORM_A: &[(&str, &str)] = &[
    ("report type", "/report_type"),
    ("date received", "/date_received"),
    (
        "temporary or permanent functional incapacity",
        "/seriousness/functional_incapacity",
    ),
    ("disability", "/seriousness/disability"),
    ("hospitalisation", "/seriousness/hospitalisation"),
    ("congenital anomalies", "/seriousness/congenital_anomaly"),
    ("immediate vital risk", "/seriousness/vital_risk"),
    ("death", "/seriousness/death"),
    ("primary reporter", "/primary_reporter/type"),
    (
        "medically confirmed",
        "/primary_reporter/medically_confirmed",
    ),
    ("end user: code", "/end_user/code"),
    ("age", "/end_user/age"),
    ("birth year", "/end_user/birth_year"),
    ("sex", "/end_user/sex"),
    ("country of residence", "/end_user/country"),
    ("full name of the product", "/products/0/full_name"),
    ("company", "/products/0/company"),
    ("category", "/products/0/category"),
    ("batch number", "/products/0/batch_number"),
    ("notification number", "/products/0/notification_number"),
    ("first-ever use", "/products/0/first_ever_use"),
    ("frequency of use", "/products/0/frequency"),
    ("professional use", "/products/0/professional_use"),
    ("application site", "/products/0/application_site"),
    ("use stopped", "/products/0/use_stopped"),
    ("date of stopping", "/products/0/use_stopped_date"),
    ("re-exposure", "/products/0/re_exposure"),
    ("other cosmetics used", "/other_cosmetics_used"),
    ("type of effect", "/undesirable_effect/type"),
    ("country of occurrence", "/undesirable_effect/country"),
    ("date of onset", "/undesirable_effect/onset"),
    (
        "from start of use to first symptoms",
        "/undesirable_effect/time_from_start_of_use_to_first_symptoms",
    ),
    (
        "from last use to first symptoms",
        "/undesirable_effect/time_from_last_use_to_first_symptoms",
    ),
    ("signs", "/undesirable_effect/signs"),
    (
        "reported diagnosis",
        "/undesirable_effect/reported_diagnosis",
    ),
    ("skin area", "/location/skin_area"),
    ("scalp", "/location/scalp"),
    ("hair", "/location/hair"),
    ("eyes", "/location/eyes"),
    ("teeth", "/location/teeth"),
    ("nails", "/location/nails"),
    ("lips", "/location/lips"),
    ("mucosa", "/location/mucosa"),
    ("other location", "/location/other"),
    ("in the application area", "/location/in_application_area"),
    (
        "out of the application area",
        "/location/out_of_application_area",
    ),
    ("course", "/course"),
    ("tests", "/tests"),
    ("medical history", "/medical_history"),
    // What the Commission's method looks at (triage-facts names them from memory): facts, not grades.
    ("time to onset", "/criteria/time_to_onset"),
    ("course after stopping", "/criteria/course_after_stopping"),
    ("criterion re-exposure", "/criteria/re_exposure"),
    ("symptoms", "/criteria/symptoms"),
    ("reliable additional tests", "/criteria/additional_tests"),
    ("other explanations", "/criteria/other_explanations"),
];

struct Studio {
    server: Server,
    artist: Visitor,
}

impl Studio {
    fn open() -> Self {
        let server = Server::demo();
        let artist = Visitor::demo_artist(&server);
        Self { server, artist }
    }

    /// A report of Signe's, in words that name her, agreeing to what is given; gives its address.
    fn report(&self, supplier: bool) -> String {
        let report = json!({
            "answers": {"eye_pain": 4, "swelling": "lids", "fever": "not_sure", "hives": "none", "onset_hours": "0-6",
                "lip_mouth_swelling": "no", "trend": "worse"},
            "places": ["right_brow", "left_around", "elsewhere"],
            "words": "Signe here, ring me on 07700 900777 or write to signe@mail.example.",
            "reach": "07700 900777",
            "consents": {"report": "2026-12", "photos": null, "supplier": supplier.then_some("2026-12")},
            "told": null, "photos": 0
        });
        self.sent(4, &report)
    }

    /// A report of the client with this link; gives its address.
    fn sent(&self, link: usize, report: &Value) -> String {
        let id = Uuid::new_v4();
        let link = &self.server.client_links()[link];
        let sent = Visitor::at(&self.server).put(&format!("{link}/reports/{id}"), report);
        assert_eq!(sent.status, 201, "{}", sent.body);
        format!("/studio/reports/{id}")
    }

    fn send(&self, path: &str, fields: &[(&str, &str)]) {
        let answer = self.artist.post_signed("/studio", path, fields);
        assert_eq!(answer.status, 303, "{}", answer.body);
    }

    /// What the artist adds, with the name wherever one can be typed.
    fn work_on(&self, report: &str) {
        let today = Utc::now().date_naive().to_string();
        self.send(
            &format!("{report}/answer"),
            &[("text", "Dear Signe, please see a doctor.")],
        );
        self.send(
            &format!("{report}/outcome"),
            &[
                (
                    "advised",
                    "Told Signe to see a doctor; Signes mother heard it.",
                ),
                ("done", "Signe’s doctor rang from 020 7946 0999."),
                ("ended", "doctor"),
                ("serious", "hospitalisation"),
                ("aware_on", &today),
                ("medically_confirmed", "yes"),
                ("diagnosis", "Nothing that Signe’s doctor named."),
                ("re_exposure", "not_performed"),
                ("tests", "None for signe-ann."),
                (
                    "other_explanations",
                    "SIGNE used a new cream; write to signe@mail.example.",
                ),
            ],
        );
        self.send(
            &format!("{report}/not-again"),
            &[("product", "0"), ("words", "Signe said so.")],
        );
    }

    fn json(&self, path: &str) -> Value {
        let answer = self.artist.get(path);
        assert_eq!(answer.status, 200, "{}", answer.body);
        assert_eq!(answer.header("content-type"), "application/json");
        answer.json()
    }
}

fn at(value: &Value) -> DateTime<chrono::FixedOffset> {
    let text = value.as_str().expect("a time");
    DateTime::parse_from_rfc3339(text).unwrap_or_else(|error| panic!("{text}: {error}"))
}

/// An answered report with these answers and nothing else.
fn plain(answers: &Value, places: &Value, told: &Value) -> Value {
    json!({
        "answers": answers, "places": places, "words": "", "reach": "",
        "consents": {"report": "2026-12", "photos": null, "supplier": null}, "told": told, "photos": 0
    })
}

#[test]
fn the_data_has_every_field_of_the_form_and_invents_none() {
    let studio = Studio::open();
    let report = studio.report(false);
    let fresh = studio.json(&format!("{report}/case.json"));
    for (heading, place) in FORM_A {
        assert!(
            fresh.pointer(place).is_some(),
            "{heading}: {place} in {fresh:#}"
        );
    }
    // Nobody has noted anything yet: that is unknown, not "no".
    assert_eq!(fresh["report_type"], "initial");
    for unknown in [
        "/serious",
        "/seriousness/death",
        "/primary_reporter/medically_confirmed",
        "/end_user/birth_year",
        "/undesirable_effect/reported_diagnosis",
        "/criteria/re_exposure",
        "/awareness_date",
    ] {
        assert_eq!(fresh.pointer(unknown), Some(&Value::Null), "{unknown}");
    }

    studio.work_on(&report);
    let case = studio.json(&format!("{report}/case.json"));
    assert_eq!(case["report_type"], "follow_up");
    assert_eq!(case["seriousness"]["hospitalisation"], true);
    assert_eq!(case["seriousness"]["death"], false);
    let today = Utc::now().date_naive().to_string();
    assert_eq!(case["awareness_date"], json!(today));
    assert_eq!(case["primary_reporter"]["medically_confirmed"], true);
    assert_eq!(case["products"][0]["batch_number"], "VW 2261");
    // Everything was answered and noted: what is still not known is what the studio never asks, and says so. The visit had
    // two products, so nobody can say which of them was used again.
    let by_hand = case["to_fill_in_by_hand"].as_array().expect("a list");
    let by_hand: Vec<String> = by_hand
        .iter()
        .map(|place| place.as_str().expect("a place").replace('*', "0"))
        .collect();
    for (heading, place) in FORM_A {
        let unknown = case.pointer(place).is_none_or(Value::is_null);
        let expected =
            by_hand.iter().any(|one| one == place) || *place == "/products/0/re_exposure";
        assert_eq!(unknown, expected, "{heading}: {place} in {case:#}");
    }
    for place in &by_hand {
        assert!(
            FORM_A.iter().any(|(_, one)| one == place),
            "{place} is of the form"
        );
    }
    let page = studio.artist.get(&format!("{report}/case")).text();
    assert!(page.contains(&say("case.by_hand_list")));
    // The note was of the United Kingdom's boxes: nobody was asked for those of the United States.
    for not_offered in ["infection", "disfigurement", "intervention"] {
        assert_eq!(
            case["seriousness"][not_offered],
            Value::Null,
            "{not_offered}"
        );
    }
    assert_eq!(case["products"][0]["use_stopped"], "yes");
    assert!(case["products"][0]["not_again_noted"].is_string());
    assert_eq!(case["products"][1]["use_stopped"], Value::Null);
    assert_eq!(case["products"][0]["application_site"], json!(["brow"]));
    assert_eq!(case["criteria"]["re_exposure"], "not_performed");
    assert_eq!(case["location"]["eyes"], true);
    assert_eq!(case["location"]["in_application_area"], true);
    assert_eq!(case["location"]["out_of_application_area"], true);
    assert_eq!(case["advice_given"]["level"], "same_day");
    assert_eq!(case["end_user"]["name"], "Signe");
    // Six hours at most from the end of the visit to the first signs, whatever the clocks do.
    let effect = &case["undesirable_effect"];
    let after = &effect["time_from_last_use_to_first_symptoms"];
    assert_eq!(after, &json!({"minutes": 360, "at_most": true}));
    assert_eq!(after, &case["criteria"]["time_to_onset"]);
    let visit = at(&case["products"][0]["used_until"]);
    assert_eq!(at(&effect["onset"]) - visit, Duration::minutes(360));
    // With the offset of the studio's clock (London, so 0 or 1 hour), to the second.
    let received = case["date_received"].as_str().expect("a time");
    assert!(
        received.ends_with("+00:00") || received.ends_with("+01:00"),
        "{received}"
    );
    assert_eq!(received.len(), "2026-11-26T08:00:00+00:00".len());
    assert_eq!(effect["answers"]["swelling"], "lids");
    let signs = effect["signs"].to_string();
    assert!(
        signs.contains("fever") && !signs.contains("hives"),
        "{signs}"
    );
    // Nothing is graded.
    let text = case.to_string();
    for grade in ["likely", "possible", "certain", "score"] {
        assert!(!text.contains(grade), "{grade}");
    }
    studio.send(&format!("{report}/settle"), &[]);
    assert_eq!(
        studio.json(&format!("{report}/case.json"))["report_type"],
        "final"
    );
}

#[test]
fn what_nobody_said_is_null() {
    let studio = Studio::open();
    // Noor had wax and tint on the brows, and says nothing of her eyes.
    let rash = studio.sent(
        0,
        &plain(&json!({"rash": "yes"}), &json!(["left_brow"]), &Value::Null),
    );
    let case = studio.json(&format!("{rash}/case.json"));
    assert_eq!(case["location"]["eyes"], Value::Null);
    assert_eq!(case["location"]["skin_area"], true);
    assert_eq!(case["location"]["other"], Value::Null);
    assert_eq!(case["treated_areas"], json!(["brow"]));
    assert_eq!(case["products"][0]["application_site"], json!(["brow"]));
    let answers = json!({"rash": "yes", "eye_trouble": "no"});
    let asked = studio.sent(1, &plain(&answers, &json!(["elsewhere"]), &Value::Null));
    let case = studio.json(&format!("{asked}/case.json"));
    assert_eq!(case["location"]["eyes"], false);
    assert_eq!(case["location"]["skin_area"], Value::Null);
}

/// The phone had told that it is often seen; the studio's rules told more, and more again when it got worse.
#[test]
fn everything_that_was_told_is_listed_by_who_told_it() {
    let studio = Studio::open();
    let told = json!({"level": "expected", "rules": [], "advice": ["ordinary"], "content_version": "earlier"});
    let answers = json!({"swelling": "local", "trend": "same"});
    let report = studio.sent(0, &plain(&answers, &json!(["left_brow"]), &told));
    let id: Uuid = report
        .rsplit('/')
        .next()
        .expect("an id")
        .parse()
        .expect("an id");
    let data =
        |studio: &Studio| studio.json(&format!("{report}/case.json"))["advice_given"].clone();
    let page = |studio: &Studio| studio.artist.get(&format!("{report}/case")).text();
    let beginning = |key: &str| {
        say(key)
            .split(['{', '“'])
            .next()
            .expect("words")
            .trim()
            .to_owned()
    };
    assert!(!page(&studio).contains(&beginning("case.told_since")));

    // A day later the page asks.
    studio.server.home.let_pass(25);
    let link = &studio.server.client_links()[0];
    let worse = Visitor::at(&studio.server).put(
        &format!("{link}/reports/{id}/follow-ups/24"),
        &json!({"how": "worse"}),
    );
    assert_eq!(worse.status, 200, "{}", worse.body);

    let advice = data(&studio);
    assert_eq!(advice["level"], "studio");
    assert_eq!(advice["told_by_phone"]["level"], "expected");
    assert_eq!(advice["told_by_phone"]["content_version"], "earlier");
    // Rule M2: worse, and swollen where it was treated (NHS, of swelling that spreads).
    assert_eq!(advice["told_since"][0]["level"], "same_day");
    assert_eq!(advice["told_since"][0]["how"], "worse");
    let sentences = |of: &Value| of["sentences"].to_string();
    let today = say("urgency.advice.today");
    assert!(sentences(&advice["told_since"][0]).contains(&today));
    assert!(
        !sentences(&advice).contains(&today)
            && !sentences(&advice["told_by_phone"]).contains(&today)
    );

    let text = page(&studio);
    let at = |what: &str| text.rfind(what).unwrap_or_else(|| panic!("{what}: {text}"));
    let places = [
        beginning("case.told_phone"),
        beginning("case.told_studio"),
        beginning("case.told_since"),
        today,
        beginning("case.other_words"),
    ]
    .map(|what| at(&what));
    assert!(places.is_sorted(), "{places:?}: {text}");
    let two = say("case.happened.report_two")
        .replace("{phone}", &say("artist.level.expected"))
        .replace("{level}", &say("artist.level.studio"));
    at(&two);
    // Told the same by everybody, there is nothing to tell apart.
    let alone = studio.report(false);
    let text = studio.artist.get(&format!("{alone}/case")).text();
    for key in ["case.told_phone", "case.told_studio", "case.other_words"] {
        assert!(!text.contains(&beginning(key)), "{key}: {text}");
    }
}

#[test]
fn who_did_what_and_when_is_in_it_for_a_doctor_alone() {
    let studio = Studio::open();
    let report = studio.report(true);
    studio.work_on(&report);
    let screen = studio.artist.get(&report);
    studio.send(
        &format!("{report}/lift"),
        &[("not_again", &screen.hidden("not_again"))],
    );
    for step in ["settle", "reopen"] {
        studio.send(&format!("{report}/{step}"), &[]);
    }
    let happened =
        |query: &str| studio.json(&format!("{report}/case.json{query}"))["happened"].clone();
    let by = |happened: &Value| -> Vec<(String, Value)> {
        let steps = happened.as_array().expect("steps");
        let step = |one: &Value| {
            (
                one["what"].as_str().expect("a term").to_owned(),
                one["by"].clone(),
            )
        };
        steps.iter().map(step).collect()
    };
    let deeds = [
        "seen",
        "answered",
        "noted",
        "not_again",
        "lifted",
        "settled",
        "reopened",
    ];
    let all = happened("");
    assert_eq!(
        by(&all)[3..],
        deeds.map(|one| (one.to_owned(), json!("Ilse Marend"))),
        "{all:#}"
    );
    let times: Vec<_> = all
        .as_array()
        .expect("steps")
        .iter()
        .map(|one| at(&one["at"]))
        .collect();
    assert!(times.is_sorted());
    for (what, by) in by(&happened("?for=supplier")) {
        assert_eq!(by, Value::Null, "{what}");
    }
    let text = studio.artist.get(&format!("{report}/case")).text();
    for deed in deeds {
        let what =
            say(&format!("case.happened.{deed}")).replace("{product}", "Velm soft wax, VW 2261");
        let line = format!("{what} (Ilse Marend)");
        assert!(text.contains(&line), "{line}: {text}");
    }
    // Lifted: it is used again.
    let case = studio.json(&format!("{report}/case.json"));
    assert_eq!(case["products"][0]["use_stopped"], Value::Null);
}

#[test]
fn without_a_name_nobody_is_named_and_only_who_agreed_is_passed_on() {
    let studio = Studio::open();
    let kept = studio.report(false);
    for end in ["case", "case.json"] {
        let refused = studio.artist.get(&format!("{kept}/{end}?for=supplier"));
        assert_eq!(refused.status, 403);
        assert!(
            refused.text().contains(&say("notice.not_agreed.sentence")),
            "{}",
            refused.body
        );
    }
    assert!(
        !studio
            .artist
            .get(&format!("{kept}/case"))
            .body
            .contains("for=supplier")
    );
    assert_eq!(
        studio
            .artist
            .get(&format!("{kept}/case?for=anybody"))
            .status,
        404
    );

    let report = studio.report(true);
    studio.work_on(&report);
    let named = studio.artist.get(&format!("{report}/case"));
    assert!(named.body.contains("for=supplier"));
    assert!(named.text().contains(&say("case.read_through")));
    let pages = [
        studio
            .artist
            .get(&format!("{report}/case?for=supplier"))
            .text(),
        studio
            .json(&format!("{report}/case.json?for=supplier"))
            .to_string(),
    ];
    for page in &pages {
        let lower = page.to_lowercase();
        for gone in [
            "signe",
            "900777",
            "mail.example",
            "0999",
            "ilse",
            "topical_retinoid",
        ] {
            assert!(!lower.contains(gone), "{gone}: {page}");
        }
        for kept in ["VW 2261", "Velm soft wax", "C-"] {
            assert!(page.contains(kept), "{kept}: {page}");
        }
    }
    let data = studio.json(&format!("{report}/case.json?for=supplier"));
    assert_eq!(data["end_user"]["name"], Value::Null);
    assert_eq!(data["medical_history"], Value::Null);
    assert_eq!(data["undesirable_effect"]["description"], Value::Null);
    assert_eq!(data["outcome"]["ended"], "doctor");
    // The same client has the same code in every report.
    let code = |path: &str| studio.json(path)["end_user"]["code"].clone();
    assert_eq!(
        code(&format!("{report}/case.json?for=supplier")),
        code(&format!("{kept}/case.json"))
    );
}

#[test]
fn the_page_for_a_doctor_says_what_happened_in_order_and_no_cause() {
    let studio = Studio::open();
    let report = studio.report(false);
    studio.work_on(&report);
    let text = studio.artist.get(&format!("{report}/case")).text();
    let at = |what: &str| text.find(what).unwrap_or_else(|| panic!("{what}: {text}"));
    let happened = ["visit", "onset", "report", "answered", "noted"];
    let places = happened.map(|step| {
        let sentence = say(&format!("case.happened.{step}"));
        at(sentence.split('{').next().expect("words").trim())
    });
    assert!(places.is_sorted(), "{places:?}: {text}");
    for said in [
        &say("case.facts_only"),
        "Signe",
        "Velm soft wax",
        "VW 2261",
        "ring me on 07700 900777",
        "Dear Signe, please see a doctor.",
        &say("urgency.advice.today"),
        &say("ending.doctor"),
        &say("serious.hospitalisation"),
        "Tamsel Lane Brows",
        &say("agreed.report"),
    ] {
        at(said);
    }
    assert_eq!(
        Visitor::at(&studio.server)
            .get(&format!("{report}/case"))
            .status,
        303
    );
}
