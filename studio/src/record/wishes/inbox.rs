//! The list of wishes: those that wait, and those that were settled.

use rusqlite::Connection;
use shared_types::visit::Treatment;

use chrono::{DateTime, Utc};

use super::{
    super::{
        RecordError,
        columns::{from_json, instant},
    },
    Held, WISH, events, read_held,
};

/// A wish in the list.
pub struct Line {
    pub held: Held,
    pub first_name: String,
    pub treatments: Vec<Treatment>,
    pub visit_finished: DateTime<Utc>,
}

/// How many wishes wait.
pub fn waiting_count(record: &Connection) -> Result<u32, RecordError> {
    Ok(record
        .prepare_cached("select count(*) from waiting_wishes")?
        .query_row([], |row| row.get(0))?)
}

/// The wishes that wait, newest first.
pub fn waiting(record: &Connection, limit: u32) -> Result<Vec<Line>, RecordError> {
    let from = "from waiting_wishes join wishes on wishes.id = waiting_wishes.wish";
    lines(record, from, "", limit)
}

/// The wishes that were settled, newest first.
pub fn settled(record: &Connection, limit: u32) -> Result<Vec<Line>, RecordError> {
    let rest = "where not exists (select 1 from waiting_wishes where wish = wishes.id)";
    lines(record, "from wishes", rest, limit)
}

fn lines(
    record: &Connection,
    from: &str,
    only: &str,
    limit: u32,
) -> Result<Vec<Line>, RecordError> {
    let mut statement = record.prepare_cached(&format!(
        "select {WISH}, first_name, treatments, finished_at {from}
         join visits on visits.id = wishes.visit join clients on clients.id = visits.client
         {only} order by received_at desc limit ?1"
    ))?;
    let mut rows = statement.query([limit])?;
    let mut lines = Vec::new();
    while let Some(row) = rows.next()? {
        let mut held = read_held(row)?;
        held.events = events::of_wish(record, held.id)?;
        lines.push(Line {
            held,
            first_name: row.get("first_name")?,
            treatments: from_json(
                row.get_ref("treatments")?
                    .as_str()
                    .map_err(rusqlite::Error::from)?,
            )?,
            visit_finished: instant(row, "finished_at")?,
        });
    }
    Ok(lines)
}
