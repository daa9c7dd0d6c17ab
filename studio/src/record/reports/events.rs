//! What happened to a report: seen, answered, settled, opened again.

use chrono::{DateTime, Utc};
use rusqlite::{Connection, OptionalExtension, params};
use uuid::Uuid;

use super::super::{RecordError, columns::At};

/// Notes that somebody at the studio looked at a report; the first time counts.
pub fn see(
    record: &Connection,
    report: Uuid,
    by: Uuid,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    record.execute(
        "insert or ignore into report_seen (report, at, made_by) values (?1, ?2, ?3)",
        params![report, At(now), by],
    )?;
    Ok(())
}

/// When a report was settled last, whether or not it waits again.
pub fn settled_at(record: &Connection, report: Uuid) -> Result<Option<DateTime<Utc>>, RecordError> {
    let at: Option<At> = record
        .prepare_cached("select max(at) from report_events where report = ?1 and kind = 'settled'")?
        .query_row([report], |row| row.get(0))?;
    Ok(at.map(|at| at.0))
}

/// Adds an answer. The same id and text again add nothing; the same id with another text, which is a form filled in
/// again after going back, is another answer.
pub fn answer(
    record: &Connection,
    id: Uuid,
    report: Uuid,
    text: &str,
    by: Uuid,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    let before: Option<String> = record
        .prepare_cached("select text from report_events where id = ?1 and kind = 'answered'")?
        .query_row([id], |row| row.get(0))
        .optional()?;
    let id = match before {
        Some(before) if before == text => return Ok(()),
        Some(_) => Uuid::new_v4(),
        None => id,
    };
    record.execute(
        "insert into report_events (id, report, kind, at, made_by, text) values (?1, ?2, 'answered', ?3, ?4, ?5)",
        params![id, report, At(now), by, text],
    )?;
    Ok(())
}

/// Settles a report that waits.
pub fn settle(
    record: &Connection,
    report: Uuid,
    by: Uuid,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    record.execute(
        "insert into report_events (id, report, kind, at, made_by, text)
         select ?1, report, 'settled', ?3, ?4, '' from waiting_reports where report = ?2",
        params![Uuid::new_v4(), report, At(now), by],
    )?;
    Ok(())
}

/// Lets a settled report wait again.
pub fn reopen(
    record: &Connection,
    report: Uuid,
    by: Uuid,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    record.execute(
        "insert into report_events (id, report, kind, at, made_by, text)
         select ?1, id, 'reopened', ?3, ?4, '' from reports
         where id = ?2 and not exists (select 1 from waiting_reports where report = ?2)",
        params![Uuid::new_v4(), report, At(now), by],
    )?;
    Ok(())
}
