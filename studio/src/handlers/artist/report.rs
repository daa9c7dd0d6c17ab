//! One report: reading it beside its visit, answering, settling.

use axum::{
    extract::State,
    http::StatusCode,
    response::{Html, IntoResponse, Redirect, Response},
};
use shared_types::{
    page::{
        artist::{ReportView, Screen},
        form::Filled,
    },
    reaction::WORDS_MAX,
};
use uuid::Uuid;

use super::{Id, check::Check};
use crate::{
    error::Refusal,
    handlers::posted::only,
    pages,
    record::{
        RecordError,
        reports::{self, events},
    },
    security::session::{SignedForm, SignedIn},
    state::{Shared, Studio},
};

/// `GET /studio/reports/{id}`
pub async fn show(
    State(studio): State<Shared>,
    signed: SignedIn,
    Id(id): Id,
) -> Result<Html<String>, Refusal> {
    screen(&studio, &signed, id, Filled::default())
}

/// `POST /studio/reports/{id}/answer`
pub async fn answer(
    State(studio): State<Shared>,
    Id(id): Id,
    SignedForm { signed, mut form }: SignedForm,
) -> Result<Response, Refusal> {
    only(&form, &["answer_id", "text"])?;
    let particulars = pages::artist::particulars(&studio)?;
    let mut check = Check::new(&form, studio.words(&particulars.language).1);
    let text = check.needed("text", WORDS_MAX);
    let faults = check.faults();
    if !faults.is_empty() {
        form.blame_all(faults);
        return Ok((
            StatusCode::UNPROCESSABLE_ENTITY,
            screen(&studio, &signed, id, form)?,
        )
            .into_response());
    }
    let answer = form
        .value("answer_id")
        .parse()
        .unwrap_or_else(|_| Uuid::new_v4());
    write(&studio, id, move |record| {
        events::answer(record, answer, id, &text, signed.artist, signed.now)
    })
    .await?;
    Ok(Redirect::to(&format!("/studio/reports/{id}")).into_response())
}

/// `POST /studio/reports/{id}/settle`
pub async fn settle(
    State(studio): State<Shared>,
    Id(id): Id,
    SignedForm { signed, form }: SignedForm,
) -> Result<Redirect, Refusal> {
    only(&form, &[])?;
    write(&studio, id, move |record| {
        events::settle(record, id, signed.artist, signed.now)
    })
    .await?;
    Ok(Redirect::to("/studio/reports"))
}

/// `POST /studio/reports/{id}/reopen`
pub async fn reopen(
    State(studio): State<Shared>,
    Id(id): Id,
    SignedForm { signed, form }: SignedForm,
) -> Result<Redirect, Refusal> {
    only(&form, &[])?;
    write(&studio, id, move |record| {
        events::reopen(record, id, signed.artist, signed.now)
    })
    .await?;
    Ok(Redirect::to(&format!("/studio/reports/{id}")))
}

/// Adds to what happened to a report that exists.
async fn write(
    studio: &Studio,
    report: Uuid,
    write: impl FnOnce(&rusqlite::Transaction<'_>) -> Result<(), RecordError> + Send + 'static,
) -> Result<(), Refusal> {
    studio
        .record
        .write(move |record| {
            reports::by_id(record, report)?.ok_or(Refusal::NotFound)?;
            write(record).map_err(Refusal::from)
        })
        .await
}

fn screen(
    studio: &Studio,
    signed: &SignedIn,
    id: Uuid,
    form: Filled,
) -> Result<Html<String>, Refusal> {
    let particulars = pages::artist::particulars(studio)?;
    let wall = pages::artist::wall(studio, &particulars);
    let (held, settled, visit) = studio
        .record
        .read(|record| {
            let Some(held) = reports::by_id(record, id)? else {
                return Ok(None);
            };
            let settled = if held.waiting {
                None
            } else {
                events::settled_at(record, id)?
            };
            Ok(
                pages::visits::read(record, held.visit, &particulars.language)?
                    .map(|visit| (held, settled, visit)),
            )
        })?
        .ok_or(Refusal::NotFound)?;
    let finished = visit.visit.finished_at;
    let report = &held.report;
    let view = ReportView {
        id,
        received: wall.moment(held.received_at, signed.now),
        after_visit: wall.after_visit(held.received_at, finished),
        signs: pages::reports::present(report, wall.words),
        trend: pages::reports::trend(report, wall.words),
        words: report.words.clone(),
        reach: report.reach.clone(),
        answers: pages::reports::answers(&held.answers, &wall, signed.now),
        settled: settled.map(|at| wall.moment(at, signed.now)),
        visit: pages::visits::view(studio, &particulars, visit, &wall, signed.now),
        answer_id: form
            .value("answer_id")
            .parse()
            .unwrap_or_else(|_| Uuid::new_v4()),
        form,
    };
    pages::artist::screen(studio, &particulars, signed, Screen::Report(Box::new(view)))
}
