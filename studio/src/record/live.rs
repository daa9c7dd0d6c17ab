//! What waits for the artist, and what came in last: read for every screen and after every commit, so all of it is found by
//! an index or at the end of a table.

use rusqlite::{Connection, OptionalExtension};
use shared_types::urgency::Level;
use uuid::Uuid;

use super::{RecordError, reports, wishes};

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Standing {
    pub reports: u32,
    pub wishes: u32,
    /// Of the reports that wait.
    pub most_urgent: Option<Level>,
    /// Grows with each report, and each time that somebody says it got worse.
    pub reported: u32,
    /// Grows with each wish.
    pub wished: u32,
    /// The report that was heard of last, with how urgent it is now.
    pub last_report: Option<(Uuid, Level)>,
    pub last_wish: Option<Uuid>,
}

pub fn standing(record: &Connection) -> Result<Standing, RecordError> {
    let last = |select: &str| -> Result<Option<(u32, Uuid)>, RecordError> {
        let mut statement = record.prepare_cached(select)?;
        let found = statement.query_row([], |row| Ok((row.get(0)?, row.get(1)?)));
        Ok(found.optional()?)
    };
    let report = last("select rowid, id from reports order by rowid desc limit 1")?;
    let wish = last("select rowid, id from wishes order by rowid desc limit 1")?;
    Ok(Standing {
        reports: reports::inbox::waiting_count(record)?,
        wishes: wishes::inbox::waiting_count(record)?,
        most_urgent: None,
        reported: report.map_or(0, |(count, _)| count),
        wished: wish.map_or(0, |(count, _)| count),
        last_report: report.map(|(_, id)| (id, Level::Studio)),
        last_wish: wish.map(|(_, id)| id),
    })
}
