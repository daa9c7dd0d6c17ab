//! The people who come to the studio.

use chrono::{DateTime, Utc};
use rusqlite::{Connection, OptionalExtension, Row, params};
use uuid::Uuid;

use super::{RecordError, columns::At};

/// A client: a first name and a way to reach them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Client {
    pub id: Uuid,
    pub first_name: String,
    pub reach: String,
}

fn read(row: &Row<'_>) -> rusqlite::Result<Client> {
    Ok(Client {
        id: row.get("id")?,
        first_name: row.get("first_name")?,
        reach: row.get("reach")?,
    })
}

/// Those seen most lately, at most `limit` and as many for whom it was put off, by name: what the choice in the form of a visit offers.
pub fn lately_seen(record: &Connection, limit: u32) -> Result<Vec<Client>, RecordError> {
    let mut statement = record.prepare_cached(
        "select id, first_name, reach from clients
         where id in (select client from visits order by finished_at desc limit ?1)
            or id in (select client from patch_tests order by applied_at desc limit ?1)
            or id in (select client from consultations where visit is null order by at desc limit ?1)
         order by first_name collate nocase, reach, id",
    )?;
    let clients = statement
        .query_map([limit], read)?
        .collect::<Result<_, _>>()?;
    Ok(clients)
}

/// The client with this id.
pub fn by_id(record: &Connection, id: Uuid) -> Result<Option<Client>, RecordError> {
    let mut statement =
        record.prepare_cached("select id, first_name, reach from clients where id = ?1")?;
    Ok(statement.query_row([id], read).optional()?)
}

/// Adds a client.
pub fn add(
    record: &Connection,
    client: &Client,
    by: Uuid,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    record.execute(
        "insert into clients (id, made_at, made_by, first_name, reach) values (?1, ?2, ?3, ?4, ?5)",
        params![client.id, At(now), by, client.first_name, client.reach],
    )?;
    Ok(())
}
