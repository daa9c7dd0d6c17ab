//! Reports in lists, each with what it is about: the inbox of those that wait, and those of a visit or a client.

use std::cmp::Reverse;

use chrono::{DateTime, Utc};
use rusqlite::{Connection, Params};
use shared_types::visit::Treatment;
use uuid::Uuid;

use super::{
    super::{
        RecordError,
        columns::{instant, json},
    },
    Held, REPORT, read_held,
};

/// A report in a list, with what it is about.
pub struct Line {
    pub held: Held,
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

/// The reports that wait: those without an answer first, of them the most urgent, and of those the one that has waited
/// longest.
pub fn waiting(record: &Connection, limit: u32) -> Result<Vec<Line>, RecordError> {
    let select = format!(
        "select {REPORT}, {LINE} from waiting_reports join reports on reports.id = waiting_reports.report {VISIT} limit ?1"
    );
    // All of them, because only here it is known which level is the more urgent.
    let mut all = lines(record, &select, [u32::MAX])?;
    all.sort_by_key(|Line { held, .. }| {
        let level = Reverse(held.level());
        (held.is_answered(), level, held.waits_since())
    });
    all.truncate(usize::try_from(limit).unwrap_or(usize::MAX));
    Ok(all)
}

/// The latest reports that were settled, newest first.
pub fn settled(record: &Connection, limit: u32) -> Result<Vec<Line>, RecordError> {
    lines(
        record,
        &format!(
            "select {REPORT}, {LINE} from reports {VISIT}
             where not exists (select 1 from waiting_reports where report = reports.id)
             order by reports.received_at desc limit ?1"
        ),
        [limit],
    )
}

/// A visit's reports, newest first.
pub fn of_visit(record: &Connection, visit: Uuid) -> Result<Vec<Line>, RecordError> {
    let of = format!("select {REPORT}, {LINE} from reports {VISIT} where reports.visit = ?1");
    lines(record, &format!("{of} {NEWEST_FIRST}"), [visit])
}

/// A client's reports of whichever visit, newest first.
pub fn of_client(record: &Connection, client: Uuid) -> Result<Vec<Line>, RecordError> {
    let of = format!("select {REPORT}, {LINE} from reports {VISIT} where visits.client = ?1");
    lines(record, &format!("{of} {NEWEST_FIRST}"), [client])
}

const NEWEST_FIRST: &str = "order by reports.received_at desc, reports.rowid desc";
const LINE: &str = "first_name, treatments, finished_at";
const VISIT: &str =
    "join visits on visits.id = reports.visit join clients on clients.id = visits.client";

fn lines(record: &Connection, select: &str, of: impl Params) -> Result<Vec<Line>, RecordError> {
    let mut statement = record.prepare_cached(select)?;
    let mut rows = statement.query(of)?;
    let mut lines = Vec::new();
    while let Some(row) = rows.next()? {
        lines.push(Line {
            held: read_held(record, row)?,
            first_name: row.get("first_name")?,
            treatments: json(row, "treatments")?,
            visit_finished: instant(row, "finished_at")?,
        });
    }
    Ok(lines)
}
