//! The case with the fields of the official form for undesirable effects of cosmetics (European Commission, Form A, its
//! headings as read in published copies), as JSON. What is not known is null; times are ISO 8601 with their offset. The
//! six things that the Commission's method looks at stand as facts, and are not graded.

use chrono::{DateTime, SecondsFormat, Utc};
use chrono_tz::Tz;
use serde_json::{Value, json};
use shared_types::{
    catalogue::urgency::UrgencyRules,
    outcome::Seriousness,
    urgency::{Answer, Answers, Field},
    visit::Area,
};
use uuid::Uuid;

use super::{Case, Names, Reader, code_of, location::location};
use crate::record::studio::Particulars;

/// Of the fields below; raised whenever one changes its meaning.
pub const VERSION: u32 = 1;

/// The whole form. `sentences` are those of the advice that was given; `treated` the areas of the visit.
pub fn form(
    case: &Case,
    studio: &Particulars,
    rules: &UrgencyRules,
    sentences: &[String],
    treated: &[Area],
    reader: Reader,
) -> Value {
    let zone = studio.time_zone;
    let at = |instant: DateTime<Utc>| iso(instant, zone);
    let names = Names::of(&case.client);
    let outcome = case.outcome();
    // Texts of the artist's: without a name for the supplier.
    let text = |text: &str| -> Value {
        match (text.is_empty(), reader) {
            (true, _) => Value::Null,
            (false, Reader::Doctor) => json!(text),
            (false, Reader::Supplier) => json!(names.taken_out_of(text)),
        }
    };
    let of_outcome = |field: fn(&shared_types::outcome::Outcome) -> &str| {
        outcome.map_or(Value::Null, |one| text(field(one)))
    };
    let report = &case.held.report;
    let is_named = reader == Reader::Doctor;
    json!({
        "form": "undesirable_effect_of_a_cosmetic",
        "form_version": VERSION,
        "report_type": report_type(case),
        "date_received": at(case.held.received_at),
        "awareness_date": outcome.and_then(|one| one.aware_on),
        "serious": outcome.map(|one| one.is_serious()),
        "seriousness": seriousness(case),
        "primary_reporter": {
            "type": "consumer",
            "medically_confirmed": outcome.and_then(|one| one.medically_confirmed),
        },
        "sender": {
            "type": "professional_user",
            "name": studio.name,
            "telephone": known(&studio.phone),
            "email": known(&studio.contact_email),
            "region": studio.region,
        },
        "end_user": {
            "code": code_of(case.client.id),
            "name": is_named.then(|| known(&case.client.first_name)),
            "contact": is_named.then(|| known(&case.client.reach)),
            "age": null,
            "birth_year": null,
            "sex": null,
            "country": null,
        },
        "products": products(case, treated, zone),
        "other_cosmetics_used": null,
        "undesirable_effect": {
            "type": null,
            "country": null,
            "onset": case.onset().map(at),
            "time_from_start_of_use_to_first_symptoms": null,
            "time_from_last_use_to_first_symptoms": onset(case, rules),
            "signs": signs(&report.answers),
            "answers": report.answers,
            "description": is_named.then(|| known(&report.words)),
            "reported_diagnosis": of_outcome(|one| &one.diagnosis),
        },
        "location": location(&report.places, &report.answers, treated),
        "course": course(case, zone),
        "outcome": {
            "advised": of_outcome(|one| &one.advised),
            "done": of_outcome(|one| &one.done),
            "ended": outcome.and_then(|one| one.ended),
        },
        "tests": of_outcome(|one| &one.tests),
        "medical_history": if is_named { history(case) } else { Value::Null },
        "patch_tests": patch_tests(case, zone),
        "advice_given": {
            "level": case.held.judged.level,
            "rules": case.held.judged.rules,
            "advice": case.held.judged.advice,
            "sentences": sentences,
            "content_version": case.held.judged.content_version,
            "told_by_phone": report.told,
        },
        // Facts for whoever assesses it. Nothing here is graded.
        "criteria": {
            "time_to_onset": onset(case, rules),
            "course_after_stopping": course(case, zone),
            "re_exposure": outcome.and_then(|one| one.re_exposure),
            "symptoms": signs(&report.answers),
            "additional_tests": of_outcome(|one| &one.tests),
            "other_explanations": of_outcome(|one| &one.other_explanations),
        },
        "report_id": report_id(case.held.id, reader),
    })
}

/// ISO 8601 at the studio, to the second, with the offset.
fn iso(at: DateTime<Utc>, zone: Tz) -> String {
    at.with_timezone(&zone)
        .to_rfc3339_opts(SecondsFormat::Secs, false)
}

fn known(text: &str) -> Value {
    if text.is_empty() {
        Value::Null
    } else {
        json!(text)
    }
}

/// The report's own id opens nothing, but a supplier is given a code as for the client.
fn report_id(id: Uuid, reader: Reader) -> String {
    match reader {
        Reader::Doctor => id.to_string(),
        Reader::Supplier => code_of(id).replacen("C-", "R-", 1),
    }
}

/// The first that is sent, one with news, or one after which no more is awaited.
fn report_type(case: &Case) -> &'static str {
    let ended = case.outcome().is_some_and(|one| one.ended.is_some());
    if ended && !case.held.waiting {
        "final"
    } else if case.noted.is_empty() && case.held.followed.is_empty() {
        "initial"
    } else {
        "follow_up"
    }
}

/// Every box; null as long as nobody has noted anything.
fn seriousness(case: &Case) -> Value {
    let boxes = Seriousness::ALL.iter().map(|one| {
        let ticked = case.outcome().map(|outcome| outcome.serious.contains(one));
        (one.term().to_owned(), json!(ticked))
    });
    Value::Object(boxes.collect())
}

fn products(case: &Case, treated: &[Area], zone: Tz) -> Vec<Value> {
    let one = |product: &shared_types::visit::Product| {
        let stopped = case.not_again.iter().find(|one| one.what.is_of(product));
        json!({
            "full_name": product.name,
            "company": null,
            "category": null,
            "batch_number": known(&product.batch),
            "notification_number": null,
            "first_ever_use": null,
            "frequency": null,
            "professional_use": true,
            "used_until": iso(case.visit.finished_at, zone),
            "application_site": treated,
            "use_stopped": stopped.map(|_| "yes"),
            "use_stopped_date": stopped.map(|one| iso(one.at, zone)),
            "re_exposure": case.outcome().and_then(|one| one.re_exposure),
        })
    };
    case.visit.products.iter().map(one).collect()
}

/// From the end of the visit to the first sign. Answered with one of the offered times, that is a limit: "within 6 hours".
fn onset(case: &Case, rules: &UrgencyRules) -> Value {
    let Some(after) = case.onset_after() else {
        return Value::Null;
    };
    let minutes = after.num_minutes();
    let offered = rules.questions.iter().flat_map(|question| &question.hours);
    let is_limit = minutes > 0
        && offered
            .into_iter()
            .any(|hours| i64::from(*hours) * 60 == minutes);
    json!({"minutes": minutes, "at_most": is_limit})
}

/// The signs that are there, with how much of each; and those that somebody was not sure of.
fn signs(answers: &Answers) -> Vec<Value> {
    // What the person brings along is none either.
    let beside = [Field::ContactLens, Field::HigherRisk, Field::Unsure];
    let there = answers.answered().filter(|field| {
        field.is_sign() && !beside.contains(field) && answers.get(*field) != Answer::At(0)
    });
    there
        .map(|field| json!({"sign": field.term(), "answer": answers.text(field)}))
        .collect()
}

/// How it went at first and since.
fn course(case: &Case, zone: Tz) -> Vec<Value> {
    let first = case.held.report.answers.text(Field::Trend);
    let first = first.map(|how| json!({"at": iso(case.held.received_at, zone), "how": how}));
    let since = case
        .held
        .followed
        .iter()
        .map(|one| json!({"at": iso(one.answered_at, zone), "how": one.how.term()}));
    first.into_iter().chain(since).collect()
}

/// What the consultation found; the client's to show, and not passed on to a supplier.
fn history(case: &Case) -> Value {
    let findings: Vec<_> = case.visit.findings.found().map(|one| one.term()).collect();
    json!({"found_before_the_treatment": findings, "flags": case.visit.flags})
}

fn patch_tests(case: &Case, zone: Tz) -> Vec<Value> {
    let one = |held: &crate::record::patch_tests::Held| {
        json!({
            "applied": iso(held.test.applied_at, zone),
            "product": held.test.product.name,
            "batch_number": known(&held.test.product.batch),
            "for": held.test.treatments,
            "result": held.outcome().map(|one| one.term()),
        })
    };
    case.patch_tests.iter().map(one).collect()
}
