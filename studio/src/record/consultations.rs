//! What stood against a treatment before it began, and what the artist decided: with a visit, or put off without one.

use chrono::{DateTime, Utc};
use rusqlite::{Connection, Row, params};
use shared_types::{
    catalogue::flag::Flag,
    consultation::{Concern, Decision, Told},
    page::before::ConcernLine,
    visit::{Findings, Treatment},
};
use uuid::Uuid;

use super::{
    RecordError,
    columns::{At, instant, json, maybe_term, to_json},
};

/// What is kept of one.
#[derive(Clone, Debug, PartialEq)]
pub struct Consultation {
    /// That of the visit, where there is one.
    pub id: Uuid,
    pub client: Uuid,
    /// Whether a visit was recorded; else it was put off.
    pub has_visit: bool,
    /// The end of the visit; or when it was put off.
    pub at: DateTime<Utc>,
    pub treatments: Vec<Treatment>,
    pub findings: Findings,
    pub flags: Vec<Flag>,
    /// Id of the studio's region then.
    pub region: String,
    /// Of the words in which it was shown; BCP 47.
    pub language: String,
    pub content_version: String,
    /// By the rules, the firmest first.
    pub concerns: Vec<Concern>,
    /// The same, in words.
    pub shown: Vec<ConcernLine>,
    pub told: Told,
    /// What was noted in the form; a visit has its own note.
    pub note: String,
}

/// A consultation as it is in the record.
#[derive(Clone, Debug, PartialEq)]
pub struct Held {
    pub consultation: Consultation,
    pub made_at: DateTime<Utc>,
    /// The artist's name.
    pub made_by: String,
}

/// Adds a consultation; that of a visit after the visit.
pub fn add(
    record: &Connection,
    one: &Consultation,
    by: Uuid,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    record.execute(
        "insert into consultations
           (id, client, visit, at, made_at, made_by, treatments, findings, flags, retinoid_stopped_days, region, language,
            content_version, concerns, shown, decision, words, note)
         values (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15, ?16, ?17, ?18)",
        params![
            one.id,
            one.client,
            one.has_visit.then_some(one.id),
            At(one.at),
            At(now),
            by,
            to_json(&one.treatments)?,
            to_json(&one.findings)?,
            to_json(&one.flags)?,
            one.told.retinoid_stopped_days,
            one.region,
            one.language,
            one.content_version,
            to_json(&one.concerns)?,
            to_json(&one.shown)?,
            one.told.decision.map(Decision::term),
            one.told.words,
            one.note,
        ],
    )?;
    Ok(())
}

const COLUMNS: &str = "consultations.id, consultations.client, visit, at, consultations.made_at, name, treatments, findings,
    flags, retinoid_stopped_days, region, language, content_version, concerns, shown, decision, words, note";

/// The consultation with this id, which is that of its visit.
pub fn by_id(record: &Connection, id: Uuid) -> Result<Option<Held>, RecordError> {
    let mut statement = record.prepare_cached(&format!(
        "select {COLUMNS} from consultations join artists on artists.id = made_by where consultations.id = ?1"
    ))?;
    let mut rows = statement.query([id])?;
    rows.next()?.map(read).transpose()
}

/// What was put off for a client, the latest first.
pub fn put_off(record: &Connection, client: Uuid) -> Result<Vec<Held>, RecordError> {
    let mut statement = record.prepare_cached(&format!(
        "select {COLUMNS} from consultations join artists on artists.id = made_by
         where consultations.client = ?1 and visit is null order by at desc, consultations.id"
    ))?;
    let mut rows = statement.query([client])?;
    let mut all = Vec::new();
    while let Some(row) = rows.next()? {
        all.push(read(row)?);
    }
    Ok(all)
}

fn read(row: &Row<'_>) -> Result<Held, RecordError> {
    Ok(Held {
        consultation: Consultation {
            id: row.get("id")?,
            client: row.get("client")?,
            has_visit: row.get::<_, Option<Uuid>>("visit")?.is_some(),
            at: instant(row, "at")?,
            treatments: json(row, "treatments")?,
            findings: json(row, "findings")?,
            flags: json(row, "flags")?,
            region: row.get("region")?,
            language: row.get("language")?,
            content_version: row.get("content_version")?,
            concerns: json(row, "concerns")?,
            shown: json(row, "shown")?,
            told: Told {
                retinoid_stopped_days: row.get("retinoid_stopped_days")?,
                decision: maybe_term(row, "decision")?,
                words: row.get("words")?,
            },
            note: row.get("note")?,
        },
        made_at: instant(row, "made_at")?,
        made_by: row.get("name")?,
    })
}
