//! The case with the fields of the official form for undesirable effects of cosmetics (European Commission, Form A, its
//! headings as read in published copies), as JSON. What is not known is null; times are ISO 8601 with their offset. The
//! six things that the Commission's method looks at stand as facts, and are not graded.

use chrono::{DateTime, SecondsFormat, Utc};
use chrono_tz::Tz;
use serde_json::{Value, json};
use shared_types::{
    outcome::Seriousness,
    reaction::Told,
    urgency::{Answer, Answers, Field},
    visit::Area,
};
use uuid::Uuid;

use super::{Case, Names, Reader, Sentences, What, code_of, location::location};
use crate::record::studio::Particulars;

/// Of the fields below; raised whenever one changes its meaning.
pub const VERSION: u32 = 2;

/// Fields of the official form that the studio never asks for, by their place (`*` is any). Whoever sends it on fills
/// them in by hand.
const BY_HAND: [&str; 19] = [
    "/end_user/age",
    "/end_user/birth_year",
    "/end_user/sex",
    "/end_user/country",
    "/products/*/company",
    "/products/*/category",
    "/products/*/notification_number",
    "/products/*/first_ever_use",
    "/products/*/frequency",
    "/products/*/use_stopped_date",
    "/other_cosmetics_used",
    "/undesirable_effect/type",
    "/undesirable_effect/country",
    "/undesirable_effect/time_from_start_of_use_to_first_symptoms",
    "/location/scalp",
    "/location/hair",
    "/location/teeth",
    "/location/nails",
    "/location/mucosa",
];

/// What is known beside the case.
pub struct Beside<'a> {
    pub studio: &'a Particulars,
    /// The areas of the visit.
    pub treated: &'a [Area],
    /// Those that were offered when it was noted what became of it.
    pub boxes: &'a [Seriousness],
    /// The advice that was given.
    pub sentences: &'a Sentences,
}

/// The whole form.
pub fn form(case: &Case, beside: &Beside<'_>, reader: Reader) -> Value {
    let Beside {
        studio,
        treated,
        boxes,
        sentences,
    } = *beside;
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
        "seriousness": seriousness(case, boxes),
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
        "treated_areas": treated,
        "products": products(case, treated, zone),
        "other_cosmetics_used": null,
        "undesirable_effect": {
            "type": null,
            "country": null,
            "onset": case.onset().map(at),
            "time_from_start_of_use_to_first_symptoms": null,
            "time_from_last_use_to_first_symptoms": onset(case),
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
        "advice_given": advice(case, sentences, zone),
        "happened": happened(case, zone, is_named),
        // Facts for whoever assesses it. Nothing here is graded.
        "criteria": {
            "time_to_onset": onset(case),
            "course_after_stopping": course(case, zone),
            "re_exposure": outcome.and_then(|one| one.re_exposure),
            "symptoms": signs(&report.answers),
            "additional_tests": of_outcome(|one| &one.tests),
            "other_explanations": of_outcome(|one| &one.other_explanations),
        },
        "report_id": report_id(case.held.id, reader),
        "to_fill_in_by_hand": BY_HAND,
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

/// Every box; null as long as nobody has noted anything, and where it was not offered.
fn seriousness(case: &Case, offered: &[Seriousness]) -> Value {
    let boxes = Seriousness::ALL.iter().map(|one| {
        let ticked = case.outcome().map(|outcome| outcome.serious.contains(one));
        let ticked = ticked.filter(|ticked| *ticked || offered.contains(one));
        (one.term().to_owned(), json!(ticked))
    });
    Value::Object(boxes.collect())
}

/// What was told: when the report arrived, by the phone before that, and after each word about how it went on.
fn advice(case: &Case, sentences: &Sentences, zone: Tz) -> Value {
    let of = |told: &Told, sentences: &[String]| {
        json!({
            "level": told.level,
            "rules": told.rules,
            "advice": told.advice,
            "sentences": sentences,
            "content_version": told.content_version,
        })
    };
    let judged = &case.held.judged;
    let phone = case.held.report.told.as_ref().map(|told| {
        let same = told.advice == judged.advice;
        of(
            told,
            if same {
                &sentences.studio
            } else {
                &sentences.phone
            },
        )
    });
    let followed = case.held.followed.iter().zip(&sentences.followed);
    let followed: Vec<Value> = followed
        .map(|(one, sentences)| {
            let mut told = of(&one.judged, sentences);
            told["at"] = json!(iso(one.answered_at, zone));
            told["how"] = json!(one.how.term());
            told
        })
        .collect();
    let mut given = of(judged, &sentences.studio);
    given["told_by_phone"] = json!(phone);
    given["told_since"] = json!(followed);
    given["sentences_of_content_version"] = json!(sentences.content_version);
    given
}

/// What happened, in order; who did it is not for a supplier.
fn happened(case: &Case, zone: Tz, is_named: bool) -> Vec<Value> {
    let steps = case.steps();
    let one = |step: &super::Step<'_>| {
        let product = match step.what {
            What::NotAgain(what) | What::Lifted(what) => Some(what),
            _ => None,
        };
        json!({
            "at": iso(step.at, zone),
            "what": step.what.term(),
            "product": product,
            "by": step.by.filter(|_| is_named),
        })
    };
    steps.iter().map(one).collect()
}

/// A field that is about one product stands beside it where the visit leaves no choice of which is meant.
fn products(case: &Case, treated: &[Area], zone: Tz) -> Vec<Value> {
    let alone = case.visit.products.len() == 1;
    let one = |product: &shared_types::visit::Product| {
        let noted = case.not_again.iter();
        let mut noted = noted.filter(|one| one.lifted.is_none() && one.what.is_of(product));
        let stopped = noted.next();
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
            "application_site": (treated.len() == 1).then_some(treated),
            "use_stopped": stopped.map(|_| "yes"),
            "use_stopped_date": null,
            "not_again_noted": stopped.map(|one| iso(one.at, zone)),
            "re_exposure": case.outcome().and_then(|one| one.re_exposure).filter(|_| alone),
        })
    };
    case.visit.products.iter().map(one).collect()
}

/// From the end of the visit to the first sign. Answered with a time between two others, the later one is a limit.
fn onset(case: &Case) -> Value {
    let Some((after, at_most)) = case.onset_after() else {
        return Value::Null;
    };
    json!({"minutes": after.num_minutes(), "at_most": at_most})
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
