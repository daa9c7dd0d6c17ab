//! The inbox: reports that wait, and those that were settled.

use std::cmp::Reverse;

use chrono::{DateTime, Utc};
use rusqlite::Connection;
use shared_types::{reaction::Report, urgency::Level, visit::Treatment};
use uuid::Uuid;

use super::{
    super::{
        RecordError,
        columns::{instant, json, maybe_instant},
    },
    REPORT, level_of, read_report,
};

/// A report in the inbox.
pub struct Line {
    pub id: Uuid,
    pub received_at: DateTime<Utc>,
    pub report: Report,
    /// That of the latest word about how it goes.
    pub level: Level,
    /// Since when it waits for the studio: its arrival, or what its sender said since of getting worse.
    pub waits_since: DateTime<Utc>,
    pub seen_at: Option<DateTime<Utc>>,
    pub waiting: bool,
    /// Since its sender last said that it is worse.
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

/// The reports that wait: those without an answer first, of them the most urgent, and of those the one that has waited
/// longest.
pub fn waiting(record: &Connection, limit: u32) -> Result<Vec<Line>, RecordError> {
    let select = format!(
        "select {REPORT}, {LINE} from waiting_reports join reports on reports.id = waiting_reports.report {VISIT} limit ?1"
    );
    // All of them, because only here it is known which level is the more urgent.
    let mut all = lines(record, &select, u32::MAX)?;
    all.sort_by_key(|line| (line.answered, Reverse(line.level), line.waits_since));
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
        limit,
    )
}

const LINE: &str =
    "(select max(at) from report_events where report = reports.id and kind = 'answered') as answered_at,
    (select level from follow_ups where report = reports.id order by asked_hours desc limit 1) as level_now,
    coalesce((select max(answered_at) from follow_ups where report = reports.id and how = 'worse'), reports.received_at)
        as waits_since,
    first_name, treatments, finished_at";
const VISIT: &str =
    "join visits on visits.id = reports.visit join clients on clients.id = visits.client";

fn lines(record: &Connection, select: &str, limit: u32) -> Result<Vec<Line>, RecordError> {
    let mut statement = record.prepare_cached(select)?;
    let mut rows = statement.query([limit])?;
    let mut lines = Vec::new();
    while let Some(row) = rows.next()? {
        let now: Option<String> = row.get("level_now")?;
        let level = now.map_or_else(|| row.get("level"), Ok)?;
        let waits_since = instant(row, "waits_since")?;
        let answered_at = maybe_instant(row, "answered_at")?;
        lines.push(Line {
            id: row.get("id")?,
            received_at: instant(row, "received_at")?,
            report: read_report(row)?,
            level: level_of(&level)?,
            waits_since,
            seen_at: maybe_instant(row, "seen_at")?,
            waiting: row.get("waiting")?,
            answered: answered_at.is_some_and(|at| at >= waits_since),
            first_name: row.get("first_name")?,
            treatments: json(row, "treatments")?,
            visit_finished: instant(row, "finished_at")?,
        });
    }
    Ok(lines)
}
