//! Visits, and the advice that was given at each.

use chrono::{DateTime, Utc};
use rusqlite::{Connection, params};
use shared_types::visit::{Product, Treatment, Visit};
use uuid::Uuid;

use super::{
    RecordError,
    clients::Client,
    columns::{At, from_json, instant, maybe_instant, to_json},
};

/// The advice as it was shown: text that is kept as it is, with its SHA-256.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct GivenAdvice {
    pub language: String,
    pub content_version: String,
    /// JSON of [`crate::advice::Advice`].
    pub body: String,
    pub sha256: [u8; 32],
}

/// A visit in the list of visits.
pub struct Line {
    pub id: Uuid,
    pub first_name: String,
    pub finished_at: DateTime<Utc>,
    pub treatments: Vec<Treatment>,
    /// When the client first opened a link of this visit.
    pub opened: Option<DateTime<Utc>>,
    pub reports: u32,
}

/// Whether this visit is in the record: a second tap sends the same id again.
pub fn exists(record: &Connection, id: Uuid) -> Result<bool, RecordError> {
    let mut statement =
        record.prepare_cached("select exists (select 1 from visits where id = ?1)")?;
    Ok(statement.query_row([id], |row| row.get(0))?)
}

/// Adds a visit with the advice that is given for it.
pub fn add(
    record: &Connection,
    visit: &Visit,
    advice: &GivenAdvice,
    by: Uuid,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    record.execute(
        "insert into visits
           (id, client, finished_at, recorded_at, recorded_by, treatments, findings, products, note)
         values (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9)",
        params![
            visit.id,
            visit.client,
            At(visit.finished_at),
            At(now),
            by,
            to_json(&visit.treatments)?,
            to_json(&visit.findings)?,
            to_json(&visit.products)?,
            visit.note,
        ],
    )?;
    record.execute(
        "insert into advice (visit, language, content_version, body, sha256) values (?1, ?2, ?3, ?4, ?5)",
        params![visit.id, advice.language, advice.content_version, advice.body, advice.sha256],
    )?;
    Ok(())
}

/// A visit with its client and the advice that was given.
pub fn by_id(
    record: &Connection,
    id: Uuid,
) -> Result<Option<(Visit, Client, GivenAdvice)>, RecordError> {
    let mut statement = record.prepare_cached(
        "select visits.id, visits.client, finished_at, treatments, findings, products, note,
                first_name, reach, language, content_version, body, sha256
         from visits join clients on clients.id = visits.client join advice on advice.visit = visits.id
         where visits.id = ?1",
    )?;
    let mut rows = statement.query([id])?;
    let Some(row) = rows.next()? else {
        return Ok(None);
    };
    let client: Uuid = row.get("client")?;
    Ok(Some((
        Visit {
            id: row.get("id")?,
            client,
            finished_at: instant(row, "finished_at")?,
            treatments: from_json(
                row.get_ref("treatments")?
                    .as_str()
                    .map_err(rusqlite::Error::from)?,
            )?,
            findings: from_json(
                row.get_ref("findings")?
                    .as_str()
                    .map_err(rusqlite::Error::from)?,
            )?,
            products: from_json(
                row.get_ref("products")?
                    .as_str()
                    .map_err(rusqlite::Error::from)?,
            )?,
            note: row.get("note")?,
        },
        Client {
            id: client,
            first_name: row.get("first_name")?,
            reach: row.get("reach")?,
        },
        GivenAdvice {
            language: row.get("language")?,
            content_version: row.get("content_version")?,
            body: row.get("body")?,
            sha256: row.get("sha256")?,
        },
    )))
}

/// The name of the artist who recorded a visit.
pub fn recorded_by(record: &Connection, id: Uuid) -> Result<String, RecordError> {
    let mut statement = record
        .prepare_cached("select name from visits join artists on artists.id = visits.recorded_by where visits.id = ?1")?;
    Ok(statement.query_row([id], |row| row.get(0))?)
}

/// The latest visits by their end, at most `limit`.
pub fn latest(record: &Connection, limit: u32) -> Result<Vec<Line>, RecordError> {
    let mut statement = record.prepare_cached(
        "select visits.id, first_name, finished_at, treatments,
                (select min(at) from link_events join links on links.id = link_events.link
                 where links.visit = visits.id and kind = 'opened') as opened,
                (select count(*) from reports where reports.visit = visits.id) as reports
         from visits join clients on clients.id = visits.client
         order by finished_at desc limit ?1",
    )?;
    let mut rows = statement.query([limit])?;
    let mut lines = Vec::new();
    while let Some(row) = rows.next()? {
        lines.push(Line {
            id: row.get("id")?,
            first_name: row.get("first_name")?,
            finished_at: instant(row, "finished_at")?,
            treatments: from_json(
                row.get_ref("treatments")?
                    .as_str()
                    .map_err(rusqlite::Error::from)?,
            )?,
            opened: maybe_instant(row, "opened")?,
            reports: row.get("reports")?,
        });
    }
    Ok(lines)
}

/// Names of the products used at the latest `visits` visits, each once, by name.
pub fn products_lately(record: &Connection, visits: u32) -> Result<Vec<String>, RecordError> {
    let mut statement =
        record.prepare_cached("select products from visits order by finished_at desc limit ?1")?;
    let mut rows = statement.query([visits])?;
    let mut names = std::collections::BTreeSet::new();
    while let Some(row) = rows.next()? {
        let products: Vec<Product> = from_json(
            row.get_ref("products")?
                .as_str()
                .map_err(rusqlite::Error::from)?,
        )?;
        names.extend(products.into_iter().map(|product| product.name));
    }
    Ok(names.into_iter().collect())
}
