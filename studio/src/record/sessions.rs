//! Who is signed in. Only the SHA-256 of a session's token is kept.

use chrono::{DateTime, TimeDelta, Utc};
use rusqlite::{Connection, OptionalExtension, params};
use uuid::Uuid;

use super::{
    RecordError,
    columns::{At, instant},
};

/// How long a session lives without being used.
pub const IDLE: TimeDelta = TimeDelta::hours(12);
/// How long a session lives at most.
pub const ABSOLUTE: TimeDelta = TimeDelta::days(14);
/// A session's last use is noted no more often than this, so that reading a page seldom writes.
const NOTED_EVERY: TimeDelta = TimeDelta::minutes(5);

/// A session that holds.
pub struct Session {
    pub artist: Uuid,
    pub artist_name: String,
    used_at: DateTime<Utc>,
}

impl Session {
    /// Whether its last use should be noted again.
    pub fn is_due(&self, now: DateTime<Utc>) -> bool {
        now - self.used_at >= NOTED_EVERY
    }
}

/// The session of this token, if it holds at `now`.
pub fn holding(
    record: &Connection,
    token_hash: &[u8; 32],
    now: DateTime<Utc>,
) -> Result<Option<Session>, RecordError> {
    let mut statement = record.prepare_cached(
        "select artists.id, artists.name, sessions.used_at from sessions join artists on artists.id = sessions.artist
         where token_hash = ?1 and sessions.used_at > ?2 and sessions.made_at > ?3",
    )?;
    let session = statement
        .query_row(
            params![token_hash, At(now - IDLE), At(now - ABSOLUTE)],
            |row| {
                Ok(Session {
                    artist: row.get("id")?,
                    artist_name: row.get("name")?,
                    used_at: instant(row, "used_at")?,
                })
            },
        )
        .optional()?;
    Ok(session)
}

/// Begins a session, and clears away those that have run out.
pub fn begin(
    record: &Connection,
    token_hash: &[u8; 32],
    artist: Uuid,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    record.execute(
        "delete from sessions where used_at <= ?1 or made_at <= ?2",
        params![At(now - IDLE), At(now - ABSOLUTE)],
    )?;
    record.execute(
        "insert into sessions (token_hash, artist, made_at, used_at) values (?1, ?2, ?3, ?3)",
        params![token_hash, artist, At(now)],
    )?;
    Ok(())
}

/// Notes that a session was used.
pub fn note_use(
    record: &Connection,
    token_hash: &[u8; 32],
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    record.execute(
        "update sessions set used_at = ?2 where token_hash = ?1",
        params![token_hash, At(now)],
    )?;
    Ok(())
}

/// Ends a session.
pub fn end(record: &Connection, token_hash: &[u8; 32]) -> Result<(), RecordError> {
    record.execute(
        "delete from sessions where token_hash = ?1",
        params![token_hash],
    )?;
    Ok(())
}
