//! Settings that are kept as versions, each as a whole: JSON, when it was made and by whom.

use chrono::{DateTime, Utc};
use rusqlite::{Connection, params};
use serde::{Serialize, de::DeserializeOwned};
use shared_types::{
    care_plan::{
        Practice,
        own::{Label, OwnAdvice},
    },
    desk::Desk,
};
use uuid::Uuid;

use super::{
    RecordError,
    columns::{At, from_json, instant, to_json},
};
use crate::notices::settings::NoticeSettings;

/// Something that is kept so. The default is what holds before anything was set.
pub trait Versioned: Default + PartialEq + Serialize + DeserializeOwned {
    /// The table of its versions.
    const TABLE: &'static str;
}

impl Versioned for Practice {
    const TABLE: &'static str = "practice_versions";
}

impl Versioned for OwnAdvice {
    const TABLE: &'static str = "own_advice_versions";
}

impl Versioned for NoticeSettings {
    const TABLE: &'static str = "notice_settings_versions";
}

impl Versioned for Vec<Label> {
    const TABLE: &'static str = "label_versions";
}

impl Versioned for Desk {
    const TABLE: &'static str = "desk_versions";
}

/// One version.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Held<T> {
    pub body: T,
    pub made_at: DateTime<Utc>,
    /// The artist's name.
    pub made_by: String,
}

/// The latest version; `None` until something was set.
pub fn latest<T: Versioned>(record: &Connection) -> Result<Option<Held<T>>, RecordError> {
    let table = T::TABLE;
    let mut statement = record.prepare_cached(&format!(
        "select body, {table}.made_at, name from {table} join artists on artists.id = made_by
         order by version desc limit 1"
    ))?;
    let mut rows = statement.query([])?;
    let Some(row) = rows.next()? else {
        return Ok(None);
    };
    let body = row.get_ref("body")?;
    Ok(Some(Held {
        body: from_json(body.as_str().map_err(rusqlite::Error::from)?)?,
        made_at: instant(row, "made_at")?,
        made_by: row.get("name")?,
    }))
}

/// What holds now.
pub fn current<T: Versioned>(record: &Connection) -> Result<T, RecordError> {
    Ok(latest(record)?.map(|held| held.body).unwrap_or_default())
}

/// Adds a version, unless it would be the same as the latest.
pub fn add<T: Versioned>(
    record: &Connection,
    body: &T,
    by: Uuid,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    if current::<T>(record)? == *body {
        return Ok(());
    }
    record.execute(
        &format!(
            "insert into {} (made_at, made_by, body) values (?1, ?2, ?3)",
            T::TABLE
        ),
        params![At(now), by, to_json(body)?],
    )?;
    Ok(())
}
