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
    /// Grows with each report, and each time that one is raised by how it went on.
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
    let raised =
        last("select id, report from follow_ups where raised = 1 order by id desc limit 1")?;
    let wish = last("select rowid, id from wishes order by rowid desc limit 1")?;
    Ok(Standing {
        reports: reports::inbox::waiting_count(record)?,
        wishes: wishes::inbox::waiting_count(record)?,
        most_urgent: most_urgent(record)?,
        reported: [report, raised]
            .into_iter()
            .flatten()
            .map(|(count, _)| count)
            .sum(),
        wished: wish.map_or(0, |(count, _)| count),
        last_report: last_heard_of(record, report, raised)?,
        last_wish: wish.map(|(_, id)| id),
    })
}

fn most_urgent(record: &Connection) -> Result<Option<Level>, RecordError> {
    let mut statement = record.prepare_cached("select report from waiting_reports")?;
    let mut rows = statement.query([])?;
    let mut most = None;
    while let Some(row) = rows.next()? {
        most = most.max(level_now(record, row.get("report")?)?);
    }
    Ok(most)
}

fn level_now(record: &Connection, report: Uuid) -> Result<Option<Level>, RecordError> {
    Ok(reports::by_id(record, report)?.map(|held| held.level()))
}

/// Of the last report and the last that was raised, the one that was heard of later.
fn last_heard_of(
    record: &Connection,
    report: Option<(u32, Uuid)>,
    raised: Option<(u32, Uuid)>,
) -> Result<Option<(Uuid, Level)>, RecordError> {
    let is_raised_later: bool = record
        .prepare_cached(
            "select coalesce((select answered_at from follow_ups where raised = 1 order by id desc limit 1), 0)
                  > coalesce((select received_at from reports order by rowid desc limit 1), 0)",
        )?
        .query_row([], |row| row.get(0))?;
    let last = if is_raised_later { raised } else { report };
    let Some((_, id)) = last else {
        return Ok(None);
    };
    Ok(level_now(record, id)?.map(|level| (id, level)))
}
