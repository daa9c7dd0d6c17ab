//! The accounts of those who work in the studio.

use chrono::{DateTime, Utc};
use rusqlite::{Connection, OptionalExtension, params};
use uuid::Uuid;

use super::{RecordError, columns::At};

/// What signing in needs of an account.
pub struct Account {
    pub id: Uuid,
    /// PHC string.
    pub password_hash: String,
}

/// Whether anybody has an account yet.
pub fn any(record: &Connection) -> Result<bool, RecordError> {
    Ok(
        record.query_row("select exists (select 1 from artists)", [], |row| {
            row.get(0)
        })?,
    )
}

/// The account with this e-mail address, in whichever case it is written.
pub fn by_email(record: &Connection, email: &str) -> Result<Option<Account>, RecordError> {
    let mut statement =
        record.prepare_cached("select id, password_hash from artists where email = ?1")?;
    let account = statement
        .query_row([email], |row| {
            Ok(Account {
                id: row.get("id")?,
                password_hash: row.get("password_hash")?,
            })
        })
        .optional()?;
    Ok(account)
}

/// Adds an account.
pub fn add(
    record: &Connection,
    id: Uuid,
    name: &str,
    email: &str,
    password_hash: &str,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    record.execute(
        "insert into artists (id, made_at, name, email, password_hash) values (?1, ?2, ?3, ?4, ?5)",
        params![id, At(now), name, email, password_hash],
    )?;
    Ok(())
}
