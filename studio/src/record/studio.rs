//! The studio's particulars, kept as versions.

use chrono::{DateTime, Utc};
use rusqlite::{Connection, OptionalExtension, params};
use uuid::Uuid;

use super::{RecordError, columns::At};

/// The studio as it stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Particulars {
    pub name: String,
    /// Empty when none was given; so is the e-mail address.
    pub phone: String,
    pub contact_email: String,
    /// A key of the content's regions.
    pub region: String,
    pub time_zone: chrono_tz::Tz,
    /// BCP 47, a key of the content's languages.
    pub language: String,
}

/// The latest particulars; `None` until the studio was set up.
pub fn current(record: &Connection) -> Result<Option<Particulars>, RecordError> {
    let mut statement = record.prepare_cached(
        "select name, phone, contact_email, region, time_zone, language from studio_versions
         order by version desc limit 1",
    )?;
    let found = statement
        .query_row([], |row| {
            let zone: String = row.get("time_zone")?;
            Ok((
                zone,
                Particulars {
                    name: row.get("name")?,
                    phone: row.get("phone")?,
                    contact_email: row.get("contact_email")?,
                    region: row.get("region")?,
                    time_zone: chrono_tz::UTC,
                    language: row.get("language")?,
                },
            ))
        })
        .optional()?;
    found
        .map(|(zone, studio)| match zone.parse() {
            Ok(time_zone) => Ok(Particulars {
                time_zone,
                ..studio
            }),
            Err(_) => Err(RecordError::Unreadable(format!("time zone `{zone}`"))),
        })
        .transpose()
}

/// Adds a version, unless it would be the same as the latest.
pub fn add(
    record: &Connection,
    studio: &Particulars,
    by: Uuid,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    if current(record)?.as_ref() == Some(studio) {
        return Ok(());
    }
    record.execute(
        "insert into studio_versions
           (made_at, made_by, name, phone, contact_email, region, time_zone, language)
         values (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8)",
        params![
            At(now),
            by,
            studio.name,
            studio.phone,
            studio.contact_email,
            studio.region,
            studio.time_zone.name(),
            studio.language
        ],
    )?;
    Ok(())
}
