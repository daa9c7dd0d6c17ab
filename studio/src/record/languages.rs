//! In which languages the page of a link was shown.

use chrono::{DateTime, Utc};
use rusqlite::{Connection, params};
use uuid::Uuid;

use super::{RecordError, columns::At};

/// Notes the first time that a link's page was shown in a language; later ones change nothing.
pub fn note_shown(
    record: &Connection,
    link: Uuid,
    language: &str,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    record.execute(
        "insert or ignore into languages_shown (link, language, at) values (?1, ?2, ?3)",
        params![link, language, At(now)],
    )?;
    Ok(())
}

/// The languages in which a link's page was shown, in the order of their first time.
pub fn shown(record: &Connection, link: Uuid) -> Result<Vec<String>, RecordError> {
    let mut statement = record.prepare_cached(
        "select language from languages_shown where link = ?1 order by at, language",
    )?;
    let rows = statement.query_map([link], |row| row.get(0))?;
    Ok(rows.collect::<Result<_, _>>()?)
}
