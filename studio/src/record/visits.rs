//! Visits, and the advice that was given at each.

use chrono::{DateTime, Utc};
use rusqlite::{Connection, Row, params};
use shared_types::visit::{Product, Treatment, Visit};
use uuid::Uuid;

use super::{
    RecordError,
    advice::{self, GivenAdvice},
    clients::Client,
    columns::{At, instant, json, maybe_instant, to_json},
    zones,
};

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

/// Adds a visit with the advice that is given for it, one in each language.
pub fn add(
    record: &Connection,
    visit: &Visit,
    given: &[GivenAdvice],
    by: Uuid,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    record.execute(
        "insert into visits
           (id, client, finished_at, recorded_at, recorded_by, treatments, findings, products, note, observations, flags)
         values (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11)",
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
            to_json(&visit.observations)?,
            to_json(&visit.flags)?,
        ],
    )?;
    zones::add(record, visit.id, &visit.zones)?;
    advice::add(record, visit.id, given)
}

/// All visits of a client, by their end.
pub fn of_client(record: &Connection, client: Uuid) -> Result<Vec<Visit>, RecordError> {
    let mut statement = record.prepare_cached(
        "select id, client, finished_at, treatments, findings, products, note, observations, flags,
                (select group_concat(side || ' ' || zone || ' ' || mark, ',') from zone_marks where visit = visits.id) as zones
         from visits where client = ?1 order by finished_at, id",
    )?;
    let mut rows = statement.query([client])?;
    let mut visits = Vec::new();
    while let Some(row) = rows.next()? {
        visits.push(read(row)?);
    }
    Ok(visits)
}

/// The visits of the same client that ended before this one, by their end.
pub fn before(record: &Connection, visit: &Visit) -> Result<Vec<Visit>, RecordError> {
    let mut visits = of_client(record, visit.client)?;
    visits.retain(|one| {
        one.id != visit.id && (one.finished_at, one.id) < (visit.finished_at, visit.id)
    });
    Ok(visits)
}

fn read(row: &Row<'_>) -> Result<Visit, RecordError> {
    Ok(Visit {
        id: row.get("id")?,
        client: row.get("client")?,
        finished_at: instant(row, "finished_at")?,
        treatments: json(row, "treatments")?,
        findings: json(row, "findings")?,
        products: json(row, "products")?,
        zones: zones::read(row)?,
        note: row.get("note")?,
        observations: json(row, "observations")?,
        flags: json(row, "flags")?,
    })
}

/// A visit with its client.
pub fn by_id(record: &Connection, id: Uuid) -> Result<Option<(Visit, Client)>, RecordError> {
    let mut statement = record.prepare_cached(
        "select visits.id, visits.client, finished_at, treatments, findings, products, note, observations, flags,
                (select group_concat(side || ' ' || zone || ' ' || mark, ',') from zone_marks where visit = visits.id) as zones,
                first_name, reach
         from visits join clients on clients.id = visits.client
         where visits.id = ?1",
    )?;
    let mut rows = statement.query([id])?;
    let Some(row) = rows.next()? else {
        return Ok(None);
    };
    let visit = read(row)?;
    let client = visit.client;
    Ok(Some((
        visit,
        Client {
            id: client,
            first_name: row.get("first_name")?,
            reach: row.get("reach")?,
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
            treatments: json(row, "treatments")?,
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
        let products: Vec<Product> = json(row, "products")?;
        names.extend(products.into_iter().map(|product| product.name));
    }
    Ok(names.into_iter().collect())
}
