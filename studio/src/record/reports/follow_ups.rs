//! How it went on after a report: what its sender answered, and what the rules said to that.

use chrono::{DateTime, Utc};
use rusqlite::{Connection, params};
use shared_types::reaction::{How, Told};
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
    /// Worse, or more urgent than the word before it: it waits for the studio again.
    pub raised: bool,
}

/// Adds an answer, unless it is the one that the question has already: whoever thinks better of it may say so. What is worse,
/// or more urgent than before, the studio is told of.
pub fn answer(
    record: &Connection,
    report: Uuid,
    asked_hours: u32,
    how: How,
    judged: &Told,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    let Some(held) = super::by_id(record, report)? else {
        return Ok(());
    };
    let to_this = |one: &&Followed| one.asked_hours == asked_hours;
    let before = held.followed.iter().rfind(to_this);
    if before.is_some_and(|one| one.how == how) {
        return Ok(());
    }
    let raised = how == How::Worse || judged.level > held.latest_level();
    record.execute(
        "insert into follow_ups (report, asked_hours, answered_at, how, level, rules, advice, content_version, raised)
         values (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9)",
        params![
            report,
            asked_hours,
            At(now),
            how.term(),
            judged.level.term(),
            to_json(&judged.rules)?,
            to_json(&judged.advice)?,
            judged.content_version,
            raised,
        ],
    )?;
    if raised {
        notices::enqueue(record, report, judged.level, now)?;
    }
    Ok(())
}

/// Those of a report, oldest first.
pub fn of_report(record: &Connection, report: Uuid) -> Result<Vec<Followed>, RecordError> {
    let mut statement = record.prepare_cached(
        "select asked_hours, answered_at, how, level, rules, advice, content_version, raised from follow_ups
         where report = ?1 order by id",
    )?;
    let mut rows = statement.query([report])?;
    let mut all = Vec::new();
    while let Some(row) = rows.next()? {
        all.push(Followed {
            asked_hours: row.get("asked_hours")?,
            answered_at: instant(row, "answered_at")?,
            how: term(row, "how")?,
            judged: read_judged(row)?,
            raised: row.get("raised")?,
        });
    }
    Ok(all)
}
