//! Wishes for a time as they came, with what became of them. What the studio does with them is in [`events`], the
//! lists of them in [`inbox`].

pub mod events;
pub mod inbox;

use chrono::{DateTime, Utc};
use rusqlite::{Connection, Row, params};
use shared_types::wish::Wish;
use uuid::Uuid;

use super::{
    RecordError,
    columns::{At, from_json, instant, to_json},
    reports::Taken,
};
use events::Event;

/// A wish as the record holds it.
pub struct Held {
    pub id: Uuid,
    pub visit: Uuid,
    pub received_at: DateTime<Utc>,
    pub wish: Wish,
    pub waiting: bool,
    /// Oldest first.
    pub events: Vec<Event>,
}

impl Held {
    /// The time that holds: the one agreed to last, unless it was called off since.
    pub fn agreed(&self) -> Option<DateTime<Utc>> {
        self.events
            .iter()
            .rev()
            .find_map(Event::agreement)
            .flatten()
    }

    /// Since when nothing more is waited for; `None` while something is.
    pub fn settled_at(&self) -> Option<DateTime<Utc>> {
        let last = self.events.iter().rev().find(|event| event.settles())?;
        (!self.waiting).then_some(last.at)
    }
}

/// The columns that [`read_wish`] needs.
const WISH: &str = "wishes.id, wishes.visit, received_at, times, words, wishes.reach,
    exists (select 1 from waiting_wishes where wish = wishes.id) as waiting";

fn read_wish(row: &Row<'_>) -> Result<Wish, RecordError> {
    Ok(Wish {
        times: from_json(
            row.get_ref("times")?
                .as_str()
                .map_err(rusqlite::Error::from)?,
        )?,
        words: row.get("words")?,
        reach: row.get("reach")?,
    })
}

fn read_held(row: &Row<'_>) -> Result<Held, RecordError> {
    Ok(Held {
        id: row.get("id")?,
        visit: row.get("visit")?,
        received_at: instant(row, "received_at")?,
        wish: read_wish(row)?,
        waiting: row.get("waiting")?,
        events: Vec::new(),
    })
}

/// What the record says about an id, before anything is added: `None` when it is free.
pub fn standing_of(
    record: &Connection,
    id: Uuid,
    visit: Uuid,
    wish: &Wish,
) -> Result<Option<Taken>, RecordError> {
    Ok(by_id(record, id)?.map(|held| {
        if held.visit == visit && held.wish == *wish {
            Taken::Again(held.received_at)
        } else {
            Taken::IdInUse
        }
    }))
}

/// Adds a wish under the id that its sender made; the same wish again under the same id adds nothing.
/// The wish must be [tidied](Wish::tidied) and without faults.
pub fn take(
    record: &Connection,
    id: Uuid,
    visit: Uuid,
    link: Uuid,
    wish: &Wish,
    now: DateTime<Utc>,
) -> Result<Taken, RecordError> {
    if let Some(taken) = standing_of(record, id, visit, wish)? {
        return Ok(taken);
    }
    record.execute(
        "insert into wishes (id, visit, link, received_at, times, words, reach) values (?1, ?2, ?3, ?4, ?5, ?6, ?7)",
        params![id, visit, link, At(now), to_json(&wish.times)?, wish.words, wish.reach],
    )?;
    Ok(Taken::New)
}

/// A visit's wishes with what became of them, newest first.
pub fn of_visit(record: &Connection, visit: Uuid) -> Result<Vec<Held>, RecordError> {
    read_all(
        record,
        &format!(
            "select {WISH} from wishes where visit = ?1 order by received_at desc, rowid desc"
        ),
        visit,
    )
}

/// One wish with what became of it.
pub fn by_id(record: &Connection, id: Uuid) -> Result<Option<Held>, RecordError> {
    let found = read_all(
        record,
        &format!("select {WISH} from wishes where id = ?1"),
        id,
    )?;
    Ok(found.into_iter().next())
}

fn read_all(record: &Connection, select: &str, of: Uuid) -> Result<Vec<Held>, RecordError> {
    let mut statement = record.prepare_cached(select)?;
    let mut rows = statement.query([of])?;
    let mut wishes = Vec::new();
    while let Some(row) = rows.next()? {
        let mut held = read_held(row)?;
        held.events = events::of_wish(record, held.id)?;
        wishes.push(held);
    }
    Ok(wishes)
}
