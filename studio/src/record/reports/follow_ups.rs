//! How it went on after a report: what its sender answered, and what the rules said to that.

use chrono::{DateTime, Utc};
use rusqlite::{Connection, OptionalExtension, params};
use shared_types::{
    reaction::{How, Told},
    urgency::Level,
};
use uuid::Uuid;

use super::{
    super::{
        RecordError,
        columns::{At, instant, term, to_json},
        notices,
    },
    read_judged,
};

/// One answer about how it goes.
pub struct Followed {
    /// In hours from the report.
    pub asked_hours: u32,
    pub answered_at: DateTime<Utc>,
    pub how: How,
    pub judged: Told,
}

/// Adds an answer, unless that question has one. Worse, or more urgent than before, it waits for the studio again and the
/// studio is told of it.
pub fn answer(record: &Connection, report: Uuid, followed: &Followed) -> Result<(), RecordError> {
    let before = level_now(record, report)?;
    let level = followed.judged.level;
    let added = record.execute(
        "insert or ignore into follow_ups (report, asked_hours, answered_at, how, level, rules, advice, content_version)
         values (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8)",
        params![
            report,
            followed.asked_hours,
            At(followed.answered_at),
            followed.how.term(),
            followed.judged.level.term(),
            to_json(&followed.judged.rules)?,
            to_json(&followed.judged.advice)?,
            followed.judged.content_version,
        ],
    )?;
    if added == 1 && (followed.how == How::Worse || Some(level) > before) {
        record.execute(
            "insert or ignore into waiting_reports (report) values (?1)",
            [report],
        )?;
        notices::enqueue(record, report, level, followed.answered_at)?;
    }
    Ok(())
}

/// How urgent a report is by what was answered last; `None` when there is no such report.
pub fn level_now(record: &Connection, report: Uuid) -> Result<Option<Level>, RecordError> {
    let found = record
        .prepare_cached(
            "select coalesce((select level from follow_ups where report = reports.id order by asked_hours desc limit 1), level)
                as level_now
             from reports where id = ?1",
        )?
        .query_row([report], |row| term(row, "level_now"));
    Ok(found.optional()?)
}

/// Those of a report, oldest first.
pub fn of_report(record: &Connection, report: Uuid) -> Result<Vec<Followed>, RecordError> {
    let mut statement = record.prepare_cached(
        "select asked_hours, answered_at, how, level, rules, advice, content_version from follow_ups
         where report = ?1 order by asked_hours",
    )?;
    let mut rows = statement.query([report])?;
    let mut all = Vec::new();
    while let Some(row) = rows.next()? {
        all.push(Followed {
            asked_hours: row.get("asked_hours")?,
            answered_at: instant(row, "answered_at")?,
            how: term(row, "how")?,
            judged: read_judged(row)?,
        });
    }
    Ok(all)
}
