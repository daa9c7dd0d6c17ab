//! Whether notices get through.

use rusqlite::Connection;

use super::{
    super::{RecordError, versions},
    attempts,
};
use crate::notices::{Way, settings::NoticeSettings};

/// The ways that are switched on and by which not all gets through.
pub fn ways(record: &Connection) -> Result<Vec<Way>, RecordError> {
    let settings: NoticeSettings = versions::current(record)?;
    let mut troubled = Vec::new();
    for way in settings.ways() {
        if is_troubled(record, way)? {
            troubled.push(way);
        }
    }
    Ok(troubled)
}

/// Whether the latest attempt failed, one that waits was tried in vain, or one was given up whose report still waits.
pub fn is_troubled(record: &Connection, way: Way) -> Result<bool, RecordError> {
    let failed = attempts::last(record, way)?.is_some_and(|last| !last.sent);
    Ok(failed || tried_in_vain(record, way)? || given_up(record, way)? > 0)
}

fn tried_in_vain(record: &Connection, way: Way) -> Result<bool, RecordError> {
    let mut statement = record.prepare_cached(
        "select exists (select 1 from waiting_notices join notice_attempts using (notice) where way = ?1)",
    )?;
    Ok(statement.query_row([way.term()], |row| row.get(0))?)
}

/// How many notices were given up whose reports still wait for somebody.
pub fn given_up(record: &Connection, way: Way) -> Result<u32, RecordError> {
    let mut statement = record.prepare_cached(
        "select count(*) from waiting_reports
         join notices on notices.report = waiting_reports.report
         join notice_attempts on notice_attempts.notice = notices.id
         where notices.way = ?1 and outcome = 'given_up'",
    )?;
    Ok(statement.query_row([way.term()], |row| row.get(0))?)
}
