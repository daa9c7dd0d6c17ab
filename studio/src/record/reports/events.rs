//! What happened to a report: seen, answered, settled, opened again.

use chrono::{DateTime, Utc};
use rusqlite::{Connection, OptionalExtension, Row, params};
use uuid::Uuid;

use super::super::{
    RecordError,
    columns::{At, instant},
};

/// When something was done, and the name of the artist who did it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Done {
    pub at: DateTime<Utc>,
    pub by: String,
}

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

/// The first time that somebody at the studio looked at it.
pub fn seen(record: &Connection, report: Uuid) -> Result<Option<Done>, RecordError> {
    let mut statement = record.prepare_cached(
        "select at, name from report_seen join artists on artists.id = made_by where report = ?1",
    )?;
    let mut rows = statement.query([report])?;
    Ok(rows.next()?.map(done).transpose()?)
}

/// Each time that it was settled or opened again, oldest first; the first of the two says whether it was settled.
pub fn settled(record: &Connection, report: Uuid) -> Result<Vec<(bool, Done)>, RecordError> {
    let mut statement = record.prepare_cached(
        "select kind, at, name from report_events join artists on artists.id = made_by
         where report = ?1 and kind <> 'answered' order by at, report_events.rowid",
    )?;
    let rows = statement.query_map([report], |row| {
        Ok((row.get::<_, String>("kind")? == "settled", done(row)?))
    })?;
    Ok(rows.collect::<Result<_, _>>()?)
}

fn done(row: &Row<'_>) -> rusqlite::Result<Done> {
    Ok(Done {
        at: instant(row, "at")?,
        by: row.get("name")?,
    })
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
