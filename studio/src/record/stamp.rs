//! How far the record has come for one client's page.

use rusqlite::Connection;
use uuid::Uuid;

use super::RecordError;

/// What the page of a visit depends on beside the clock. Everything in it is only ever added to, so that counting is
/// enough: while the counts are the same, so is the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stamp {
    reports: i64,
    report_events: i64,
    studio_version: i64,
}

/// The stamp of a visit's page.
pub fn of_visit(record: &Connection, visit: Uuid) -> Result<Stamp, RecordError> {
    let mut statement = record.prepare_cached(
        "select (select count(*) from reports where visit = ?1) as reports,
                (select count(*) from reports join report_events on report_events.report = reports.id
                 where visit = ?1) as report_events,
                (select max(version) from studio_versions) as studio_version",
    )?;
    let stamp = statement.query_row([visit], |row| {
        Ok(Stamp {
            reports: row.get("reports")?,
            report_events: row.get("report_events")?,
            studio_version: row.get("studio_version")?,
        })
    })?;
    Ok(stamp)
}
