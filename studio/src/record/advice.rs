//! The advice that was given at a visit, once in each language that the content had then.

use rusqlite::{Connection, params};
use uuid::Uuid;

use super::RecordError;

/// The advice as it was shown: text that is kept as it is, with its SHA-256.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct GivenAdvice {
    /// BCP 47.
    pub language: String,
    pub content_version: String,
    /// JSON of [`crate::advice::Advice`].
    pub body: String,
    pub sha256: [u8; 32],
}

/// Adds the advice of a visit; the first language stands in for any that is not among them.
pub(super) fn add(
    record: &Connection,
    visit: Uuid,
    given: &[GivenAdvice],
) -> Result<(), RecordError> {
    let mut statement = record.prepare_cached(
        "insert into advice (visit, language, place, content_version, body, sha256) values (?1, ?2, ?3, ?4, ?5, ?6)",
    )?;
    for (place, one) in (0_i64..).zip(given) {
        statement.execute(params![
            visit,
            one.language,
            place,
            one.content_version,
            one.body,
            one.sha256
        ])?;
    }
    Ok(())
}

/// The advice of a visit in a language, else in the one it was first given in.
pub fn of_visit(
    record: &Connection,
    visit: Uuid,
    language: &str,
) -> Result<GivenAdvice, RecordError> {
    let mut statement = record.prepare_cached(
        "select language, content_version, body, sha256 from advice
         where rowid = (select rowid from advice where visit = ?1 order by language = ?2 desc, place limit 1)",
    )?;
    let mut rows = statement.query(params![visit, language])?;
    let Some(row) = rows.next()? else {
        return Err(RecordError::Unreadable(
            "a visit without its advice".to_owned(),
        ));
    };
    Ok(GivenAdvice {
        language: row.get("language")?,
        content_version: row.get("content_version")?,
        body: row.get("body")?,
        sha256: row.get("sha256")?,
    })
}

/// The languages in which the advice of a visit was given, the first first.
pub fn languages(record: &Connection, visit: Uuid) -> Result<Vec<String>, RecordError> {
    let mut statement =
        record.prepare_cached("select language from advice where visit = ?1 order by place")?;
    let rows = statement.query_map([visit], |row| row.get(0))?;
    Ok(rows.collect::<Result<_, _>>()?)
}
