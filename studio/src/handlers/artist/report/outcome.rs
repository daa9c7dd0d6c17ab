//! What became of a report: noted as often as something is learnt; the latest note counts.

use axum::{
    extract::State,
    response::{IntoResponse, Response},
};
use chrono::{DateTime, NaiveDate, Utc};
use shared_types::{
    outcome::{NOTE_MAX, Outcome, Seriousness},
    page::form::Filled,
};

use super::{
    super::{
        Id,
        check::Check,
        waits::{Reports, back, write},
    },
    Forms, refused,
};
use crate::{
    error::Refusal,
    handlers::posted::only,
    pages::{self, report::yes_or_no, wall::Wall},
    record::{outcomes, reports::events},
    security::session::SignedForm,
    state::Shared,
};

const FIELDS: &[&str] = &[
    "advised",
    "done",
    "ended",
    "serious",
    "aware_on",
    "medically_confirmed",
    "diagnosis",
    "re_exposure",
    "tests",
    "other_explanations",
];

/// `POST /studio/reports/{id}/outcome`
pub async fn note(
    State(studio): State<Shared>,
    Id(id): Id,
    SignedForm { signed, mut form }: SignedForm,
) -> Result<Response, Refusal> {
    only(&form, FIELDS)?;
    let particulars = pages::artist::particulars(&studio)?;
    let wall = pages::artist::wall(&studio, &particulars);
    let mut check = Check::new(&form, wall.words);
    let outcome = read(&mut check, &form, &wall, signed.now);
    if outcome.is_empty() {
        check.fault("advised", "fault.outcome_empty", &[]);
    }
    let faults = check.faults();
    if !faults.is_empty() {
        form.blame_all(faults);
        let forms = Forms {
            outcome: Some(form),
            ..Forms::default()
        };
        return refused(&studio, &signed, id, forms);
    }
    let region = particulars.region.clone();
    write::<Reports>(&studio, id, move |record| {
        events::see(record, id, signed.artist, signed.now)?;
        outcomes::note(record, id, &outcome, &region, signed.artist, signed.now)
    })
    .await?;
    Ok(back::<Reports>(id).into_response())
}

/// The outcome that a form tells; what is wrong with it is noted.
fn read(check: &mut Check<'_>, form: &Filled, wall: &Wall<'_>, now: DateTime<Utc>) -> Outcome {
    let mut serious: Vec<Seriousness> = Vec::new();
    for given in form.all("serious") {
        match given.parse() {
            Ok(one) => serious.push(one),
            Err(_) => check.fault("serious", "fault.unknown_choice", &[]),
        }
    }
    serious.sort_unstable();
    serious.dedup();
    let today = wall.day(now);
    let given = form.value("aware_on").trim();
    let mut aware_on = given.parse::<NaiveDate>().ok();
    if aware_on.is_none() && !given.is_empty() {
        check.fault("aware_on", "fault.date", &[]);
    }
    if aware_on.is_some_and(|day| day > today) {
        check.fault("aware_on", "fault.future", &[]);
    }
    // Whoever ticks a box knows of it now; an earlier day has to be said.
    if !serious.is_empty() && given.is_empty() {
        aware_on = Some(today);
    }
    let confirmed = form.value("medically_confirmed");
    let medically_confirmed = [true, false]
        .into_iter()
        .find(|yes| yes_or_no(*yes) == confirmed);
    if medically_confirmed.is_none() && !confirmed.is_empty() {
        check.fault("medically_confirmed", "fault.unknown_choice", &[]);
    }
    Outcome {
        advised: check.text("advised", NOTE_MAX),
        done: check.text("done", NOTE_MAX),
        ended: chosen(check, form, "ended"),
        serious,
        aware_on,
        medically_confirmed,
        diagnosis: check.text("diagnosis", NOTE_MAX),
        re_exposure: chosen(check, form, "re_exposure"),
        tests: check.text("tests", NOTE_MAX),
        other_explanations: check.text("other_explanations", NOTE_MAX),
    }
}

/// The term that was chosen, if one was.
fn chosen<T: std::str::FromStr>(check: &mut Check<'_>, form: &Filled, field: &str) -> Option<T> {
    let given = form.value(field);
    let one = given.parse().ok();
    if one.is_none() && !given.is_empty() {
        check.fault(field, "fault.unknown_choice", &[]);
    }
    one
}
