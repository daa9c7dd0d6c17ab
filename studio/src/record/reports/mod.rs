//! Reports as they came, with the answers that were given. What else happened to them is in [`events`], the lists of
//! them in [`inbox`].

pub mod events;
pub mod inbox;

use chrono::{DateTime, Utc};
use rusqlite::{Connection, Row, params};
use shared_types::reaction::Report;
use uuid::Uuid;

use super::{
    RecordError,
    columns::{At, from_json, instant, to_json},
    notices,
};

/// What became of a report that was sent.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Taken {
    /// It is in the record now.
    New,
    /// The very same report was there already; since when.
    Again(DateTime<Utc>),
    /// Another report has this id.
    IdInUse,
}

/// A report as the record holds it.
pub struct Held {
    pub id: Uuid,
    pub visit: Uuid,
    pub received_at: DateTime<Utc>,
    pub report: Report,
    pub waiting: bool,
    /// Oldest first.
    pub answers: Vec<Answer>,
}

/// The studio's answer to a report.
pub struct Answer {
    pub by: String,
    pub at: DateTime<Utc>,
    pub text: String,
}

/// The columns that [`read_report`] needs.
const REPORT: &str =
    "reports.id, reports.visit, received_at, signs, since, trend, words, reports.reach, consent,
    exists (select 1 from waiting_reports where report = reports.id) as waiting";

fn read_report(row: &Row<'_>) -> Result<Report, RecordError> {
    let term = |column| -> Result<Option<String>, RecordError> {
        Ok(row.get::<_, Option<String>>(column)?)
    };
    let unreadable =
        |e: shared_types::reaction::UnknownTerm| RecordError::Unreadable(e.to_string());
    Ok(Report {
        signs: from_json(
            row.get_ref("signs")?
                .as_str()
                .map_err(rusqlite::Error::from)?,
        )?,
        since: term("since")?
            .map(|one| one.parse())
            .transpose()
            .map_err(unreadable)?,
        trend: term("trend")?
            .map(|one| one.parse())
            .transpose()
            .map_err(unreadable)?,
        words: row.get("words")?,
        reach: row.get("reach")?,
        consent: Some(row.get("consent")?),
    })
}

fn read_held(row: &Row<'_>) -> Result<Held, RecordError> {
    Ok(Held {
        id: row.get("id")?,
        visit: row.get("visit")?,
        received_at: instant(row, "received_at")?,
        report: read_report(row)?,
        waiting: row.get("waiting")?,
        answers: Vec::new(),
    })
}

/// What the record says about an id, before anything is added: `None` when it is free.
pub fn standing_of(
    record: &Connection,
    id: Uuid,
    visit: Uuid,
    report: &Report,
) -> Result<Option<Taken>, RecordError> {
    let mut statement =
        record.prepare_cached(&format!("select {REPORT} from reports where id = ?1"))?;
    let mut rows = statement.query([id])?;
    let Some(row) = rows.next()? else {
        return Ok(None);
    };
    let held = read_held(row)?;
    Ok(Some(if held.visit == visit && held.report == *report {
        Taken::Again(held.received_at)
    } else {
        Taken::IdInUse
    }))
}

/// Adds a report under the id that its sender made; the same report again under the same id adds nothing.
/// The report must be [tidied](Report::tidied) and without faults.
pub fn take(
    record: &Connection,
    id: Uuid,
    visit: Uuid,
    link: Uuid,
    report: &Report,
    now: DateTime<Utc>,
) -> Result<Taken, RecordError> {
    if let Some(taken) = standing_of(record, id, visit, report)? {
        return Ok(taken);
    }
    record.execute(
        "insert into reports (id, visit, link, received_at, signs, since, trend, words, reach, consent)
         values (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10)",
        params![
            id,
            visit,
            link,
            At(now),
            to_json(&report.signs)?,
            report.since.map(|since| since.term()),
            report.trend.map(|trend| trend.term()),
            report.words,
            report.reach,
            report.consent,
        ],
    )?;
    notices::enqueue(record, id, shared_types::urgency::Level::Studio, now)?;
    Ok(Taken::New)
}

/// A visit's reports with their answers, newest first.
pub fn of_visit(record: &Connection, visit: Uuid) -> Result<Vec<Held>, RecordError> {
    let mut statement = record.prepare_cached(&format!(
        "select {REPORT} from reports where visit = ?1 order by received_at desc, rowid desc"
    ))?;
    let mut rows = statement.query([visit])?;
    let mut reports = Vec::new();
    while let Some(row) = rows.next()? {
        let mut held = read_held(row)?;
        held.answers = answers_to(record, held.id)?;
        reports.push(held);
    }
    Ok(reports)
}

/// One report with its answers.
pub fn by_id(record: &Connection, id: Uuid) -> Result<Option<Held>, RecordError> {
    let mut statement =
        record.prepare_cached(&format!("select {REPORT} from reports where id = ?1"))?;
    let mut rows = statement.query([id])?;
    let Some(row) = rows.next()? else {
        return Ok(None);
    };
    let mut held = read_held(row)?;
    held.answers = answers_to(record, id)?;
    Ok(Some(held))
}

fn answers_to(record: &Connection, report: Uuid) -> Result<Vec<Answer>, RecordError> {
    let mut statement = record.prepare_cached(
        "select name, at, text from report_events join artists on artists.id = report_events.made_by
         where report = ?1 and kind = 'answered' order by at, report_events.rowid",
    )?;
    let answers = statement
        .query_map([report], |row| {
            Ok(Answer {
                by: row.get("name")?,
                at: instant(row, "at")?,
                text: row.get("text")?,
            })
        })?
        .collect::<Result<_, _>>()?;
    Ok(answers)
}
