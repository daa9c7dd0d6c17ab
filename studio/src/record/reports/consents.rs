//! What the sender of a report agreed to: the text as it was shown, its version, and when.

use chrono::{DateTime, Utc};
use rusqlite::{Connection, params};
use shared_types::reaction::Purpose;
use uuid::Uuid;

use super::{
    super::{
        RecordError,
        columns::{At, instant, term},
    },
    New,
};

/// The text of a consent in the language in which it was shown.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Text {
    pub purpose: Purpose,
    pub version: &'static str,
    pub text: String,
}

/// One consent that was given.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Given {
    pub purpose: Purpose,
    pub given_at: DateTime<Utc>,
    pub version: String,
    pub language: String,
    /// Empty where nobody knows what was shown: before texts were kept, and for a version that is not ours.
    pub text: String,
}

pub(super) fn add(
    record: &Connection,
    new: &New<'_>,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    for purpose in Purpose::ALL.iter().copied() {
        let Some(version) = new.report.consents.of(purpose) else {
            continue;
        };
        let shown = |one: &&Text| (one.purpose, one.version) == (purpose, version);
        let text = new.texts.iter().find(shown);
        record.execute(
            "insert into report_consents (report, purpose, given_at, version, language, text)
             values (?1, ?2, ?3, ?4, ?5, ?6)",
            params![
                new.id,
                purpose.term(),
                At(now),
                version,
                new.language,
                text.map_or("", |text| &text.text),
            ],
        )?;
    }
    Ok(())
}

/// What was agreed to with a report.
pub fn of_report(record: &Connection, report: Uuid) -> Result<Vec<Given>, RecordError> {
    let mut statement = record.prepare_cached(
        "select purpose, given_at, version, language, text from report_consents where report = ?1 order by rowid",
    )?;
    let rows = statement.query_map([report], |row| {
        Ok(Given {
            purpose: term(row, "purpose")?,
            given_at: instant(row, "given_at")?,
            version: row.get("version")?,
            language: row.get("language")?,
            text: row.get("text")?,
        })
    })?;
    Ok(rows.collect::<Result<_, _>>()?)
}
