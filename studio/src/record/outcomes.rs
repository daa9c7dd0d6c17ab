//! What became of reports, as the artist noted it.

use chrono::{DateTime, Utc};
use rusqlite::{Connection, Row, params};
use shared_types::outcome::{Ending, Outcome, ReExposure};
use uuid::Uuid;

use super::{
    RecordError,
    columns::{At, instant, json, maybe_term, to_json},
};

/// One note, with who made it.
#[derive(Clone, Debug, PartialEq)]
pub struct Noted {
    pub id: Uuid,
    pub outcome: Outcome,
    /// Of the studio then: it says which boxes there were.
    pub region: String,
    pub at: DateTime<Utc>,
    /// The artist's name.
    pub by: String,
}

/// A note to be added.
pub struct New<'a> {
    pub report: Uuid,
    pub outcome: &'a Outcome,
    /// Of the studio: it says which boxes there are.
    pub region: &'a str,
    /// The latest note that its writer had before them.
    pub beside: Option<Uuid>,
}

/// Adds a note, unless the latest says the very same. `false` when there is a newer note than its writer had before them:
/// nothing is added then, because what stands in that one would be undone unseen.
pub fn note(
    record: &Connection,
    new: &New<'_>,
    by: Uuid,
    now: DateTime<Utc>,
) -> Result<bool, RecordError> {
    let New {
        report,
        outcome,
        region,
        beside,
    } = *new;
    let latest = latest(record, report)?;
    if latest.as_ref().is_some_and(|held| held.outcome == *outcome) {
        return Ok(true);
    }
    if latest.map(|held| held.id) != beside {
        return Ok(false);
    }
    record.execute(
        "insert into report_outcomes (id, report, at, made_by, region, advised, done, ended, serious, aware_on,
            medically_confirmed, diagnosis, re_exposure, tests, other_explanations)
         values (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15)",
        params![
            Uuid::new_v4(),
            report,
            At(now),
            by,
            region,
            outcome.advised,
            outcome.done,
            outcome.ended.map(Ending::term),
            to_json(&outcome.serious)?,
            outcome.aware_on.map(|day| day.to_string()),
            outcome.medically_confirmed,
            outcome.diagnosis,
            outcome.re_exposure.map(ReExposure::term),
            outcome.tests,
            outcome.other_explanations,
        ],
    )?;
    Ok(true)
}

const SELECT: &str = "select report_outcomes.id, region, at, name, advised, done, ended, serious, aware_on, medically_confirmed, diagnosis,
    re_exposure, tests, other_explanations
    from report_outcomes join artists on artists.id = made_by where report = ?1
    order by at desc, report_outcomes.rowid desc";

/// Every note of a report, the latest first.
pub fn of_report(record: &Connection, report: Uuid) -> Result<Vec<Noted>, RecordError> {
    let mut statement = record.prepare_cached(SELECT)?;
    let mut rows = statement.query([report])?;
    let mut all = Vec::new();
    while let Some(row) = rows.next()? {
        all.push(read(row)?);
    }
    Ok(all)
}

/// The note that counts.
pub fn latest(record: &Connection, report: Uuid) -> Result<Option<Noted>, RecordError> {
    let mut statement = record.prepare_cached(SELECT)?;
    let mut rows = statement.query([report])?;
    rows.next()?.map(read).transpose()
}

fn read(row: &Row<'_>) -> Result<Noted, RecordError> {
    Ok(Noted {
        id: row.get("id")?,
        outcome: Outcome {
            advised: row.get("advised")?,
            done: row.get("done")?,
            ended: maybe_term(row, "ended")?,
            serious: json(row, "serious")?,
            aware_on: maybe_term(row, "aware_on")?,
            medically_confirmed: row.get("medically_confirmed")?,
            diagnosis: row.get("diagnosis")?,
            re_exposure: maybe_term(row, "re_exposure")?,
            tests: row.get("tests")?,
            other_explanations: row.get("other_explanations")?,
        },
        region: row.get("region")?,
        at: instant(row, "at")?,
        by: row.get("name")?,
    })
}
