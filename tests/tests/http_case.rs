//! The summary of a case: every field of the official form, times that can be checked, and for the supplier nobody's name.

#![cfg(test)]

use chrono::{DateTime, Duration};
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
        let id = Uuid::new_v4();
        let report = json!({
            "answers": {"eye_pain": 4, "swelling": "lids", "fever": "not_sure", "hives": "none", "onset_hours": "6", "trend": "worse"},
            "places": ["right_brow", "left_around"],
            "words": "Signe here, ring me on 07700 900777 or write to signe@mail.example.",
            "reach": "07700 900777",
            "consents": {"report": "2026-12", "photos": null, "supplier": supplier.then_some("2026-12")},
            "told": null, "photos": 0
        });
        let link = &self.server.client_links()[4];
        let sent = Visitor::at(&self.server).put(&format!("{link}/reports/{id}"), &report);
        assert_eq!(sent.status, 201, "{}", sent.body);
        format!("/studio/reports/{id}")
    }

    fn send(&self, path: &str, fields: &[(&str, &str)]) {
        let answer = self.artist.post_signed("/studio", path, fields);
        assert_eq!(answer.status, 303, "{}", answer.body);
    }

    /// What the artist adds, with the name wherever one can be typed.
    fn work_on(&self, report: &str) {
        self.send(
            &format!("{report}/answer"),
            &[("text", "Dear Signe, please see a doctor.")],
        );
        self.send(
            &format!("{report}/outcome"),
            &[
                ("advised", "Told Signe to see a doctor."),
                ("done", "Signe’s doctor rang from 020 7946 0999."),
                ("ended", "doctor"),
                ("serious", "hospitalisation"),
                ("aware_on", "2026-11-02"),
                ("medically_confirmed", "yes"),
                ("diagnosis", "Nothing that Signe’s doctor named."),
                ("re_exposure", "not_performed"),
                ("tests", "None for signe."),
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
    assert_eq!(case["awareness_date"], "2026-11-02");
    assert_eq!(case["primary_reporter"]["medically_confirmed"], true);
    assert_eq!(case["products"][0]["batch_number"], "VW 2261");
    assert_eq!(case["products"][0]["use_stopped"], "yes");
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
