//! Products that are not to be used again for a client: noted after a report, and lifted again.

use chrono::{DateTime, Utc};
use rusqlite::{Connection, params};
use shared_types::consultation::NotAgain;
use uuid::Uuid;

use super::{
    RecordError,
    columns::{At, instant},
};

/// One that stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Held {
    pub id: Uuid,
    pub what: NotAgain,
    /// The report after which it was noted.
    pub report: Uuid,
    pub at: DateTime<Utc>,
    /// The artist's name.
    pub by: String,
    pub words: String,
}

/// What is to be noted or lifted.
#[derive(Clone, Debug)]
pub struct New<'a> {
    pub client: Uuid,
    pub report: Uuid,
    pub what: &'a NotAgain,
    pub words: &'a str,
}

/// Notes a product, unless it stands already.
pub fn note(
    record: &Connection,
    new: &New<'_>,
    by: Uuid,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    let held = of_client(record, new.client)?;
    if held.iter().any(|one| one.what.is_same(new.what)) {
        return Ok(());
    }
    add(record, "noted", new, by, now)
}

/// Lifts one that stands for this client; one that does not is left as it is.
pub fn lift(
    record: &Connection,
    client: Uuid,
    id: Uuid,
    by: Uuid,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    let held = of_client(record, client)?;
    let Some(held) = held.iter().find(|one| one.id == id) else {
        return Ok(());
    };
    let new = New {
        client,
        report: held.report,
        what: &held.what,
        words: "",
    };
    add(record, "lifted", &new, by, now)
}

fn add(
    record: &Connection,
    kind: &str,
    new: &New<'_>,
    by: Uuid,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    record.execute(
        "insert into not_again (id, client, report, kind, product, batch, at, made_by, words)
         values (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9)",
        params![
            Uuid::new_v4(),
            new.client,
            new.report,
            kind,
            new.what.product,
            new.what.batch,
            At(now),
            by,
            new.words,
        ],
    )?;
    Ok(())
}

/// What stands for a client, the earliest noted first.
pub fn of_client(record: &Connection, client: Uuid) -> Result<Vec<Held>, RecordError> {
    let mut statement = record.prepare_cached(
        "select not_again.id, report, kind, product, batch, at, name, words
         from not_again join artists on artists.id = made_by
         where client = ?1 order by at, not_again.rowid",
    )?;
    let mut rows = statement.query([client])?;
    let mut stands: Vec<Held> = Vec::new();
    while let Some(row) = rows.next()? {
        let held = Held {
            id: row.get("id")?,
            what: NotAgain {
                product: row.get("product")?,
                batch: row.get("batch")?,
            },
            report: row.get("report")?,
            at: instant(row, "at")?,
            by: row.get("name")?,
            words: row.get("words")?,
        };
        stands.retain(|one| !one.what.is_same(&held.what));
        if row.get::<_, String>("kind")? == "noted" {
            stands.push(held);
        }
    }
    Ok(stands)
}
