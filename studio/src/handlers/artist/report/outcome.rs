//! What became of a report: noted as often as something is learnt; the latest note counts.

use axum::{
    extract::State,
    response::{IntoResponse, Response},
};
use chrono::{DateTime, NaiveDate, Utc};
use shared_types::{
    outcome::{NOTE_MAX, Outcome, Seriousness},
    page::form::Filled,
    words::Words,
};
use uuid::Uuid;

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
    pages::{
        self,
        report::{filled, offered, yes_or_no},
    },
    record::{
        outcomes::{self, Noted},
        reports::{self, events},
        visits,
    },
    security::session::SignedForm,
    state::{Shared, Studio},
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
    "beside",
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
    let (visited, latest) = standing(&studio, id)?;
    let mut check = Check::new(&form, wall.words);
    let among = Among {
        boxes: offered(
            &studio.content,
            &particulars.region,
            latest.as_ref().map(|one| &one.outcome),
        ),
        from: wall.day(visited),
        until: wall.day(signed.now),
    };
    let outcome = read(&mut check, &form, &among);
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
    let beside = form.value("beside").parse().ok();
    let (by, now) = (signed.artist, signed.now);
    let added = write::<Reports, _>(&studio, id, move |record| {
        events::see(record, id, by, now)?;
        let new = outcomes::New {
            report: id,
            outcome: &outcome,
            region: &region,
            beside,
        };
        outcomes::note(record, &new, by, now)
    })
    .await?;
    if added {
        return Ok(back::<Reports>(id).into_response());
    }
    let (_, latest) = standing(&studio, id)?;
    let forms = Forms {
        outcome: Some(beside_newer(form, latest.as_ref(), wall.words)),
        ..Forms::default()
    };
    refused(&studio, &signed, id, forms)
}

/// When the visit of a report ended, and what was noted last.
fn standing(studio: &Studio, id: Uuid) -> Result<(DateTime<Utc>, Option<Noted>), Refusal> {
    let found = studio.record.read(|record| {
        let Some(held) = reports::by_id(record, id)? else {
            return Ok(None);
        };
        let visit = visits::by_id(record, held.visit)?;
        let latest = outcomes::latest(record, id)?;
        Ok(visit.map(|(visit, _)| (visit.finished_at, latest)))
    })?;
    found.ok_or(Refusal::NotFound)
}

/// A form that was sent beside an older note than stands now: what was typed, and what the newer note has more, so that
/// sending it again takes nothing back unseen.
fn beside_newer(mut form: Filled, latest: Option<&Noted>, words: &Words) -> Filled {
    form.forget("beside");
    let newer = latest.map(filled).unwrap_or_default();
    for field in FIELDS {
        let typed = !form.value(field).trim().is_empty();
        if typed && *field != "serious" {
            continue;
        }
        for value in newer.all(field) {
            if !form.has(field, value) {
                form.put(field, value);
            }
        }
    }
    form.blame("", words.say("fault.outcome_newer"));
    form
}

/// What a form may tell.
struct Among {
    boxes: Vec<Seriousness>,
    /// The first and the last day on which somebody can have learnt of it.
    from: NaiveDate,
    until: NaiveDate,
}

/// The outcome that a form tells; what is wrong with it is noted.
fn read(check: &mut Check<'_>, form: &Filled, among: &Among) -> Outcome {
    let mut serious: Vec<Seriousness> = Vec::new();
    for given in form.all("serious") {
        match given.parse() {
            Ok(one) if among.boxes.contains(&one) => serious.push(one),
            Ok(_) | Err(_) => check.fault("serious", "fault.unknown_choice", &[]),
        }
    }
    serious.sort_unstable();
    serious.dedup();
    let given = form.value("aware_on").trim();
    let mut aware_on = given.parse::<NaiveDate>().ok();
    if aware_on.is_none() && !given.is_empty() {
        check.fault("aware_on", "fault.date", &[]);
    }
    if aware_on.is_some_and(|day| day > among.until) {
        check.fault("aware_on", "fault.future", &[]);
    }
    if aware_on.is_some_and(|day| day < among.from) {
        check.fault("aware_on", "fault.aware_before", &[]);
    }
    // Whoever ticks a box knows of it now; an earlier day has to be said.
    if !serious.is_empty() && given.is_empty() {
        aware_on = Some(among.until);
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
