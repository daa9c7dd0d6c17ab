//! How it went on after a report: what its sender answered, and what the rules said to that.

use chrono::{DateTime, Utc};
use rusqlite::{Connection, params};
use shared_types::reaction::{How, Told};
use uuid::Uuid;

use super::{
    super::{
        RecordError,
        columns::{At, instant, to_json},
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

/// Adds an answer, unless that question has one.
pub fn answer(record: &Connection, report: Uuid, followed: &Followed) -> Result<(), RecordError> {
    record.execute(
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
    Ok(())
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
        let unknown =
            |e: shared_types::reaction::UnknownTerm| RecordError::Unreadable(e.to_string());
        all.push(Followed {
            asked_hours: row.get("asked_hours")?,
            answered_at: instant(row, "answered_at")?,
            how: row.get::<_, String>("how")?.parse().map_err(unknown)?,
            judged: read_judged(row)?,
        });
    }
    Ok(all)
}
