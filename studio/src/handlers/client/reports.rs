//! A report that something is not right. It is acknowledged when it is on disk, and never lost or doubled before.

use axum::{
    Json,
    extract::{Path, State},
    http::StatusCode,
    response::{IntoResponse, Redirect, Response},
};
use chrono::{DateTime, TimeDelta, Utc};
use shared_types::{
    reaction::{Report, Told},
    wire::Receipt,
};
use uuid::Uuid;

use super::{Holder, photos, trouble};
use crate::{
    error::{Refusal, sentence},
    handlers::{posted::Sent, posted_photos::PostedWithPhotos},
    links::address,
    pages::{self, client::Source},
    record::reports::{self, Taken},
    state::{Shared, Studio},
};

/// As many photos as a report announces, however many more came with it.
const MOST: usize = shared_types::photos::PHOTOS_MAX as usize;
/// The same words later than this are told anew: it has not got better.
const SAME_SENDING: TimeDelta = TimeDelta::hours(1);

/// `PUT /MY/{secret}/reports/{id}`: from the living page, which made the id and sends again until it is answered.
/// 201 when the report was taken, 200 when the very same was there already, 409 when the id is another report's.
pub async fn put(
    State(studio): State<Shared>,
    holder: Holder,
    Path((_, id)): Path<(String, Uuid)>,
    Sent(report): Sent<Report>,
) -> Result<Response, Refusal> {
    let report = report.tidied();
    if let Some(fault) = report.faults().first() {
        return Err(Refusal::NotTaken(*fault));
    }
    let source = pages::client::read(&studio, &holder)?;
    let (status, received_at) = match take(&studio, &holder, &source, id, report).await? {
        Taken::New => (StatusCode::CREATED, holder.now.0),
        Taken::Again(at) => (StatusCode::OK, at),
        Taken::IdInUse => return Err(Refusal::ReportIdInUse),
    };
    let wall = source.wall(&studio);
    let received = wall.moment(received_at, holder.now.0);
    Ok((status, Json(Receipt { id, received })).into_response())
}

/// `POST /MY/{secret}/reports`: the plain form. Back to the client's page, which shows the report as received; or the form
/// again, with everything that was typed and a sentence for what needs mending.
pub async fn post(
    State(studio): State<Shared>,
    holder: Holder,
    PostedWithPhotos { form, photos }: PostedWithPhotos,
) -> Result<Response, Refusal> {
    let mut asked = trouble::asked(&studio, &holder, form)?;
    let answers = asked.answers.clone().unwrap_or_default();
    let mut report = Report::from_form(answers, &asked.form)
        .map_err(|term| Refusal::Malformed(term.to_string()))?;
    report.photos = u8::try_from(photos.len().min(MOST)).unwrap_or(u8::MAX);
    let faults = report.faults();
    if !faults.is_empty() {
        let (_, words) = studio.words(&holder.language);
        for fault in &faults {
            asked.form.blame(fault.field, sentence(words, fault));
        }
        let page = trouble::draw(&studio, &holder, asked)?;
        return Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response());
    }
    let id = asked
        .form
        .value("report_id")
        .parse()
        .unwrap_or_else(|_| Uuid::new_v4());
    let source = pages::client::read(&studio, &holder)?;
    if said_just_now(&source, &report, holder.now.0) {
        return Ok(back_to_page(&holder));
    }
    // A form that was filled in again after going back may carry the id of the report before: it is a new report.
    let mut taken_as = id;
    if take(&studio, &holder, &source, id, report.clone()).await? == Taken::IdInUse {
        taken_as = Uuid::new_v4();
        take(&studio, &holder, &source, taken_as, report).await?;
    }
    // The report is there, whatever becomes of its photos.
    let left_out = photos::keep_of_form(&studio, &holder, taken_as, photos).await?;
    if left_out.is_empty() {
        return Ok(back_to_page(&holder));
    }
    let (_, words) = studio.words(&holder.language);
    let said = left_out.into_iter().map(|(name, why)| {
        let why = why.sentence(words);
        let studio = source.studio.name.as_str();
        let values = [("studio", studio), ("name", &name), ("why", &why)];
        words.fill("client.tell.photo_left_out", &values)
    });
    let said: Vec<String> = said.collect();
    asked.form.blame("photos", said.join(" "));
    Ok(trouble::draw(&studio, &holder, asked)?.into_response())
}

fn back_to_page(holder: &Holder) -> Response {
    Redirect::to(&format!("{}#reports", address::path(&holder.secret))).into_response()
}

/// Whether the visit's latest report says the very same and nobody has answered it yet. Going back after sending, a
/// browser loads the form anew, with a new id, and fills in what was typed: sent again, that is the same report.
fn said_just_now(source: &Source, report: &Report, now: DateTime<Utc>) -> bool {
    source.reports.first().is_some_and(|held| {
        reports::said_the_same(&held.report, report)
            && held.answers.is_empty()
            && now - held.received_at < SAME_SENDING
    })
}

/// Decides again, and keeps the report with both verdicts.
async fn take(
    studio: &Studio,
    holder: &Holder,
    source: &Source,
    id: Uuid,
    report: Report,
) -> Result<Taken, Refusal> {
    let (link, visit, now) = (holder.link.id, holder.visit, holder.now.0);
    let report = report.beside(&source.treatments, now - source.finished_at);
    // What is there already is answered whatever the limit says: sending again is how nothing gets lost.
    if let Some(taken) = studio
        .record
        .read(|record| reports::standing_of(record, id, visit, &report))?
    {
        return Ok(taken);
    }
    studio.limits.report(link)?;
    let rules = studio.content.catalogue.urgency.compiled();
    let judged = Told::new(&report.judge(&rules), &studio.content.version);
    let (language, words) = studio.words(&source.language);
    let language = language.to_owned();
    let texts = pages::trouble::consents(words, &source.studio.name);
    let taken = studio
        .record
        .write(move |record| {
            let new = reports::New {
                id,
                visit,
                link,
                report: &report,
                judged: &judged,
                language: &language,
                texts: &texts,
            };
            reports::take(record, &new, now)
        })
        .await?;
    Ok(taken)
}
