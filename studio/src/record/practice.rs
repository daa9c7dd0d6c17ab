//! How the studio works, kept as versions.

use chrono::{DateTime, Utc};
use rusqlite::{Connection, params};
use shared_types::care_plan::Practice;
use uuid::Uuid;

use super::{
    RecordError,
    columns::{At, from_json, instant, to_json},
};

/// One version.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Held {
    pub practice: Practice,
    pub made_at: DateTime<Utc>,
    /// The artist's name.
    pub made_by: String,
}

/// The latest version; `None` until something was set.
pub fn latest(record: &Connection) -> Result<Option<Held>, RecordError> {
    let mut statement = record.prepare_cached(
        "select body, practice_versions.made_at, name
         from practice_versions join artists on artists.id = made_by
         order by version desc limit 1",
    )?;
    let mut rows = statement.query([])?;
    let Some(row) = rows.next()? else {
        return Ok(None);
    };
    Ok(Some(Held {
        practice: from_json(
            row.get_ref("body")?
                .as_str()
                .map_err(rusqlite::Error::from)?,
        )?,
        made_at: instant(row, "made_at")?,
        made_by: row.get("name")?,
    }))
}

/// How the studio works now.
pub fn current(record: &Connection) -> Result<Practice, RecordError> {
    Ok(latest(record)?
        .map(|held| held.practice)
        .unwrap_or_default())
}

/// Adds a version, unless it would be the same as the latest.
pub fn add(
    record: &Connection,
    practice: &Practice,
    by: Uuid,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    if current(record)? == *practice {
        return Ok(());
    }
    record.execute(
        "insert into practice_versions (made_at, made_by, body) values (?1, ?2, ?3)",
        params![At(now), by, to_json(practice)?],
    )?;
    Ok(())
}
