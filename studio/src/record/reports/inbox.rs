//! The inbox: reports that wait, and those that were settled.

use chrono::{DateTime, Utc};
use rusqlite::Connection;
use shared_types::{reaction::Report, visit::Treatment};
use uuid::Uuid;

use super::{
    super::{
        RecordError,
        columns::{from_json, instant},
    },
    read_report,
};

/// A report in the inbox.
pub struct Line {
    pub id: Uuid,
    pub received_at: DateTime<Utc>,
    pub report: Report,
    pub waiting: bool,
    pub answered: bool,
    pub first_name: String,
    pub treatments: Vec<Treatment>,
    pub visit_finished: DateTime<Utc>,
}

/// How many reports wait.
pub fn waiting_count(record: &Connection) -> Result<u32, RecordError> {
    Ok(record
        .prepare_cached("select count(*) from waiting_reports")?
        .query_row([], |row| row.get(0))?)
}

/// The reports that wait, newest first.
pub fn waiting(record: &Connection, limit: u32) -> Result<Vec<Line>, RecordError> {
    lines(
        record,
        &format!(
            "select {LINE} from waiting_reports join reports on reports.id = waiting_reports.report {VISIT}
             order by received_at desc limit ?1"
        ),
        limit,
    )
}

/// The reports that were settled, newest first.
pub fn settled(record: &Connection, limit: u32) -> Result<Vec<Line>, RecordError> {
    lines(
        record,
        &format!(
            "select {LINE} from reports {VISIT}
             where not exists (select 1 from waiting_reports where report = reports.id)
             order by received_at desc limit ?1"
        ),
        limit,
    )
}

const LINE: &str = "reports.id, reports.visit, received_at, signs, since, trend, words, reports.reach, consent,
    exists (select 1 from waiting_reports where report = reports.id) as waiting,
    exists (select 1 from report_events where report = reports.id and kind = 'answered') as answered,
    first_name, treatments, finished_at";
const VISIT: &str =
    "join visits on visits.id = reports.visit join clients on clients.id = visits.client";

fn lines(record: &Connection, select: &str, limit: u32) -> Result<Vec<Line>, RecordError> {
    let mut statement = record.prepare_cached(select)?;
    let mut rows = statement.query([limit])?;
    let mut lines = Vec::new();
    while let Some(row) = rows.next()? {
        lines.push(Line {
            id: row.get("id")?,
            received_at: instant(row, "received_at")?,
            report: read_report(row)?,
            waiting: row.get("waiting")?,
            answered: row.get("answered")?,
            first_name: row.get("first_name")?,
            treatments: from_json(
                row.get_ref("treatments")?
                    .as_str()
                    .map_err(rusqlite::Error::from)?,
            )?,
            visit_finished: instant(row, "finished_at")?,
        });
    }
    Ok(lines)
}
