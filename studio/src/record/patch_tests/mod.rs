//! Patch tests as they were put on, with what was seen of each. What is added to one later is in [`events`], the lists of
//! them in [`list`].

pub mod events;
pub mod list;

use chrono::{DateTime, Utc};
use rusqlite::{Connection, Row, params};
use shared_types::{
    consultation,
    patch_test::{self, Applied, Look, Outcome},
    visit::Product,
};
use uuid::Uuid;

use super::{
    RecordError,
    columns::{At, instant, json, to_json},
};
use events::{Answered, Event};

/// A patch test as the record holds it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Held {
    pub test: Applied,
    /// The name of the artist who recorded it.
    pub recorded_by: String,
    /// Whether it waits to be read.
    pub waiting: bool,
    /// What the artist noted, oldest first.
    pub events: Vec<Event>,
    /// What the client said, oldest first.
    pub answers: Vec<Answered>,
}

impl Held {
    /// What it stands at; `None` while nobody has read it.
    pub fn outcome(&self) -> Option<Outcome> {
        let read = self.events.iter().filter_map(|event| {
            let look = Look::Read(event.outcome()?);
            Some((event.at, look))
        });
        let told = self.answers.iter();
        let told = told.map(|one| (one.received_at, Look::Told(one.answer.noticed)));
        let mut looks: Vec<_> = read.chain(told).collect();
        looks.sort_by_key(|(at, _)| *at);
        patch_test::stands_at(looks.into_iter().map(|(_, look)| look))
    }

    /// When it was withdrawn, and by whom.
    pub fn withdrawn(&self) -> Option<&Event> {
        self.events.iter().find(|event| event.outcome().is_none())
    }
}

/// The columns that [`read_test`] needs; `patch_tests` and `artists` must be in the statement's `from`.
const TEST: &str =
    "patch_tests.id, patch_tests.client, applied_at, treatments, product, batch, place,
    place_words, look_hours, note, artists.name as recorded_by,
    exists (select 1 from waiting_patch_tests where test = patch_tests.id) as waiting";
const FROM: &str = "patch_tests join artists on artists.id = patch_tests.recorded_by";

fn read_test(row: &Row<'_>) -> Result<Held, RecordError> {
    let place: String = row.get("place")?;
    Ok(Held {
        test: Applied {
            id: row.get("id")?,
            client: row.get("client")?,
            treatments: json(row, "treatments")?,
            product: Product {
                name: row.get("product")?,
                batch: row.get("batch")?,
            },
            place: unreadable(place.parse())?,
            place_words: row.get("place_words")?,
            applied_at: instant(row, "applied_at")?,
            look_hours: json(row, "look_hours")?,
            note: row.get("note")?,
        },
        recorded_by: row.get("recorded_by")?,
        waiting: row.get("waiting")?,
        events: Vec::new(),
        answers: Vec::new(),
    })
}

fn unreadable<T, E: std::fmt::Display>(read: Result<T, E>) -> Result<T, RecordError> {
    read.map_err(|error| RecordError::Unreadable(error.to_string()))
}

/// Adds a test.
pub fn add(
    record: &Connection,
    test: &Applied,
    content_version: &str,
    by: Uuid,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    record.execute(
        "insert into patch_tests
           (id, client, applied_at, recorded_at, recorded_by, treatments, product, batch, place, place_words, look_hours,
            content_version, note)
         values (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13)",
        params![
            test.id,
            test.client,
            At(test.applied_at),
            At(now),
            by,
            to_json(&test.treatments)?,
            test.product.name,
            test.product.batch,
            test.place.term(),
            test.place_words,
            to_json(&test.look_hours)?,
            content_version,
            test.note,
        ],
    )?;
    Ok(())
}

/// One test with everything that was seen of it.
pub fn by_id(record: &Connection, id: Uuid) -> Result<Option<Held>, RecordError> {
    let select = format!("select {TEST} from {FROM} where patch_tests.id = ?1");
    Ok(read_all(record, &select, [id])?.into_iter().next())
}

/// The tests of a client, by when they were put on. Those that were withdrawn are left out.
pub fn of_client(record: &Connection, client: Uuid) -> Result<Vec<Held>, RecordError> {
    let select = format!(
        "select {TEST} from {FROM} where client = ?1 order by applied_at, patch_tests.rowid"
    );
    let mut tests = read_all(record, &select, [client])?;
    tests.retain(|held| held.withdrawn().is_none());
    Ok(tests)
}

/// Those that were put on before a visit ended.
pub fn before(
    record: &Connection,
    client: Uuid,
    visit_finished: DateTime<Utc>,
) -> Result<Vec<Held>, RecordError> {
    let mut tests = of_client(record, client)?;
    tests.retain(|held| held.test.applied_at <= visit_finished);
    Ok(tests)
}

/// What the rules before a treatment ask of a client's tests, once for each treatment of each. `products` are today's.
pub fn before_treatment(tests: &[Held], products: &[Product]) -> Vec<consultation::PatchTest> {
    tests
        .iter()
        .flat_map(|held| patch_test::before_treatment(&held.test, held.outcome(), products))
        .collect()
}

fn read_all(
    record: &Connection,
    select: &str,
    values: impl rusqlite::Params,
) -> Result<Vec<Held>, RecordError> {
    let mut statement = record.prepare_cached(select)?;
    let mut rows = statement.query(values)?;
    let mut tests = Vec::new();
    while let Some(row) = rows.next()? {
        let mut held = read_test(row)?;
        held.events = events::of_test(record, held.test.id)?;
        held.answers = events::answers_of(record, held.test.id)?;
        tests.push(held);
    }
    Ok(tests)
}
