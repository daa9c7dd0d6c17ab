//! A report that something is not right. It is acknowledged when it is on disk, and never lost or doubled before.

mod plain;

use axum::{
    Json,
    extract::{Path, State},
    http::StatusCode,
    response::{IntoResponse, Response},
};
use chrono::{DateTime, Utc};
use rusqlite::Connection;
use shared_types::{
    reaction::{Report, Told},
    wire::Receipt,
};
use uuid::Uuid;

use super::Holder;
use crate::{
    error::Refusal,
    handlers::posted::Sent,
    pages::{self, client::Source},
    record::{
        RecordError,
        reports::{self, Taken, consents::Text},
    },
    state::{Shared, Studio},
};
pub use plain::post;

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

/// A report that was decided again, with all that the record keeps of it.
struct Ready {
    visit: Uuid,
    link: Uuid,
    report: Report,
    judged: Told,
    language: String,
    texts: Vec<Text>,
    now: DateTime<Utc>,
}

impl Ready {
    /// Counts it as one more of its link. The report stands [beside](Report::beside) its visit.
    fn new(
        studio: &Studio,
        holder: &Holder,
        source: &Source,
        report: Report,
    ) -> Result<Self, Refusal> {
        studio.limits.report(holder.link.id)?;
        let rules = studio.content.catalogue.urgency.compiled();
        let judged = Told::new(&report.judge(&rules), &studio.content.version);
        let (language, words) = studio.words(&source.language);
        Ok(Self {
            visit: holder.visit,
            link: holder.link.id,
            report,
            judged,
            language: language.to_owned(),
            texts: pages::trouble::consents(words, &source.studio.name),
            now: holder.now.0,
        })
    }

    /// Adds it to the record, under the id that its sender made.
    fn take(&self, record: &Connection, id: Uuid) -> Result<Taken, RecordError> {
        let new = reports::New {
            id,
            visit: self.visit,
            link: self.link,
            report: &self.report,
            judged: &self.judged,
            language: &self.language,
            texts: &self.texts,
        };
        reports::take(record, &new, self.now)
    }
}

/// Decides again, and keeps the report with both verdicts.
async fn take(
    studio: &Studio,
    holder: &Holder,
    source: &Source,
    id: Uuid,
    report: Report,
) -> Result<Taken, Refusal> {
    let visit = holder.visit;
    let report = report.beside(&source.treatments, holder.now.0 - source.finished_at);
    // What is there already is answered whatever the limit says: sending again is how nothing gets lost.
    if let Some(taken) = studio
        .record
        .read(|record| reports::standing_of(record, id, visit, &report))?
    {
        return Ok(taken);
    }
    let ready = Ready::new(studio, holder, source, report)?;
    Ok(studio
        .record
        .write(move |record| ready.take(record, id))
        .await?)
}
