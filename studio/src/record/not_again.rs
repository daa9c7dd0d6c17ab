//! Products that are not to be used again for a client: noted after a report, and lifted again.

use chrono::{DateTime, Utc};
use rusqlite::{Connection, params};
use shared_types::consultation::NotAgain;
use uuid::Uuid;

use super::{
    RecordError,
    columns::{At, instant},
};

/// One that was noted.
#[derive(Clone, Debug, PartialEq)]
pub struct Held {
    pub id: Uuid,
    pub what: NotAgain,
    /// The report after which it was noted.
    pub report: Uuid,
    pub at: DateTime<Utc>,
    /// The artist's name.
    pub by: String,
    pub words: String,
    /// Lifted since; `None` while it stands.
    pub lifted: Option<Lifted>,
}

/// When one was lifted, and by whom.
#[derive(Clone, Debug, PartialEq)]
pub struct Lifted {
    pub at: DateTime<Utc>,
    /// The artist's name.
    pub by: String,
}

/// What is to be noted or lifted.
#[derive(Clone, Debug)]
pub struct New<'a> {
    pub client: Uuid,
    pub report: Uuid,
    pub what: &'a NotAgain,
    pub words: &'a str,
}

/// Notes a product, unless the same stands already after the same report and in the same words.
pub fn note(
    record: &Connection,
    new: &New<'_>,
    by: Uuid,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    let said = |one: &Held| {
        one.lifted.is_none()
            && one.what.is_same(new.what)
            && one.report == new.report
            && one.words == new.words
    };
    if ever(record, new.client)?.iter().any(said) {
        return Ok(());
    }
    add(record, "noted", new, by, now)
}

/// Lifts what stands for this client, however often it was noted; what does not stand is left as it is.
pub fn lift(
    record: &Connection,
    client: Uuid,
    id: Uuid,
    by: Uuid,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    let held = ever(record, client)?;
    let mut held = held.iter();
    let Some(held) = held.find(|one| one.id == id && one.lifted.is_none()) else {
        return Ok(());
    };
    let new = New {
        client,
        report: held.report,
        what: &held.what,
        words: "",
    };
    add(record, "lifted", &new, by, now)
}

fn add(
    record: &Connection,
    kind: &str,
    new: &New<'_>,
    by: Uuid,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    record.execute(
        "insert into not_again (id, client, report, kind, product, batch, at, made_by, words)
         values (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9)",
        params![
            Uuid::new_v4(),
            new.client,
            new.report,
            kind,
            new.what.product,
            new.what.batch,
            At(now),
            by,
            new.words,
        ],
    )?;
    Ok(())
}

/// What stands for a client, each product or batch once: as it was noted last. The latest comes first.
pub fn of_client(record: &Connection, client: Uuid) -> Result<Vec<Held>, RecordError> {
    Ok(standing(&ever(record, client)?))
}

/// Those that stand of everything that was ever noted.
pub fn standing(ever: &[Held]) -> Vec<Held> {
    let mut stands: Vec<Held> = Vec::new();
    for held in ever.iter().rev() {
        if held.lifted.is_none() && !stands.iter().any(|one| one.what.is_same(&held.what)) {
            stands.push(held.clone());
        }
    }
    stands
}

/// Everything that was ever noted for a client, the earliest first.
pub fn ever(record: &Connection, client: Uuid) -> Result<Vec<Held>, RecordError> {
    let mut statement = record.prepare_cached(
        "select not_again.id, report, kind, product, batch, at, name, words
         from not_again join artists on artists.id = made_by
         where client = ?1 order by at, not_again.rowid",
    )?;
    let mut rows = statement.query([client])?;
    let mut all: Vec<Held> = Vec::new();
    while let Some(row) = rows.next()? {
        let (at, by): (_, String) = (instant(row, "at")?, row.get("name")?);
        let what = NotAgain {
            product: row.get("product")?,
            batch: row.get("batch")?,
        };
        if row.get::<_, String>("kind")? == "noted" {
            all.push(Held {
                id: row.get("id")?,
                what,
                report: row.get("report")?,
                at,
                by,
                words: row.get("words")?,
                lifted: None,
            });
            continue;
        }
        let stood = all.iter_mut();
        for one in stood.filter(|one| one.lifted.is_none() && one.what.is_same(&what)) {
            one.lifted = Some(Lifted { at, by: by.clone() });
        }
    }
    Ok(all)
}
