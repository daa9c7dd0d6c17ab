//! The outbox: notices that have to go out, and what became of each.

pub mod attempts;
pub mod recipients;
pub mod trouble;

use chrono::{DateTime, Utc};
use rusqlite::{Connection, OptionalExtension, params};
use shared_types::urgency::Level;
use uuid::Uuid;

use super::{
    RecordError,
    columns::{At, instant, maybe_term},
    versions,
};
use crate::notices::{Way, settings::NoticeSettings};

/// A notice that has to go out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Waiting {
    pub id: Uuid,
    pub made_at: DateTime<Utc>,
    /// The report and how urgent it is; `None` when only the way is tried.
    pub about: Option<(Uuid, Level)>,
    /// Whether the report still waits for somebody.
    pub needed: bool,
    /// How often it was tried without getting through.
    pub attempts: u32,
    pub next_at: DateTime<Utc>,
}

/// Puts a notice of a report into the outbox for each way that is switched on. To be called in the transaction that adds
/// the report, or what makes it more urgent: either both are in the record or neither.
pub fn enqueue(
    record: &Connection,
    report: Uuid,
    level: Level,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    let settings: NoticeSettings = versions::current(record)?;
    for way in settings.ways() {
        add(record, way, Some((report, level)), now)?;
    }
    Ok(())
}

/// Puts a notice that only tries the way into the outbox, for each way that is switched on. Their ids.
pub fn enqueue_test(record: &Connection, now: DateTime<Utc>) -> Result<Vec<Uuid>, RecordError> {
    let settings: NoticeSettings = versions::current(record)?;
    let ways = settings.ways();
    ways.map(|way| add(record, way, None, now)).collect()
}

fn add(
    record: &Connection,
    way: Way,
    about: Option<(Uuid, Level)>,
    now: DateTime<Utc>,
) -> Result<Uuid, RecordError> {
    let id = Uuid::new_v4();
    record
        .prepare_cached(
            "insert into notices (id, made_at, way, report, level) values (?1, ?2, ?3, ?4, ?5)",
        )?
        .execute(params![
            id,
            At(now),
            way.term(),
            about.map(|(report, _)| report),
            about.map(|(_, level)| level.term()),
        ])?;
    Ok(id)
}

/// The notice of a way whose turn is next, whether it has come or not.
pub fn next(record: &Connection, way: Way) -> Result<Option<Waiting>, RecordError> {
    let mut statement = record.prepare_cached(
        "select id, made_at, report, level, next_at,
                report is null or exists (select 1 from waiting_reports where waiting_reports.report = notices.report) as needed,
                (select count(*) from notice_attempts where notice = notices.id) as attempts
         from waiting_notices join notices on notices.id = waiting_notices.notice
         where waiting_notices.way = ?1 order by next_at limit 1",
    )?;
    let found = statement
        .query_row([way.term()], |row| {
            let report: Option<Uuid> = row.get("report")?;
            Ok(Waiting {
                id: row.get("id")?,
                made_at: instant(row, "made_at")?,
                about: report.zip(maybe_term(row, "level")?),
                needed: row.get("needed")?,
                attempts: row.get("attempts")?,
                next_at: instant(row, "next_at")?,
            })
        })
        .optional()?;
    Ok(found)
}

/// Whatever waits is tried at once: the settings were changed.
pub fn hurry(record: &Connection, now: DateTime<Utc>) -> Result<(), RecordError> {
    record.execute(
        "update waiting_notices set next_at = min(next_at, ?1)",
        [At(now)],
    )?;
    Ok(())
}

/// How many notices of a way wait.
pub fn waiting_count(record: &Connection, way: Way) -> Result<u32, RecordError> {
    Ok(record
        .prepare_cached("select count(*) from waiting_notices where way = ?1")?
        .query_row([way.term()], |row| row.get(0))?)
}
