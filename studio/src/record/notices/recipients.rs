//! Who has a notice already, of several addresses.

use chrono::{DateTime, Utc};
use rusqlite::{Connection, params};
use uuid::Uuid;

use super::super::{RecordError, columns::At};

/// Notes that the mail server has taken a notice for an address.
pub fn note(
    record: &Connection,
    notice: Uuid,
    address: &str,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    record.execute(
        "insert or ignore into notice_recipients (notice, address, at) values (?1, ?2, ?3)",
        params![notice, address, At(now)],
    )?;
    Ok(())
}

/// The addresses that need not be told of it again.
pub fn told(record: &Connection, notice: Uuid) -> Result<Vec<String>, RecordError> {
    let mut statement =
        record.prepare_cached("select address from notice_recipients where notice = ?1")?;
    let addresses = statement.query_map([notice], |row| row.get(0))?;
    Ok(addresses.collect::<Result<_, _>>()?)
}
