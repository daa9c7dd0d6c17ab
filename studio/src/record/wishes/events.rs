//! What happened to a wish: answered, with or without a time agreed to; called off; settled; opened again.

use chrono::{DateTime, Utc};
use rusqlite::{Connection, OptionalExtension, params};
use uuid::Uuid;

use super::super::{
    RecordError,
    columns::{At, instant, maybe_instant},
};

/// One thing that happened to a wish.
pub struct Event {
    pub kind: Kind,
    pub at: DateTime<Utc>,
    /// The artist's name.
    pub by: String,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Kind {
    Answered {
        /// May be empty when a time was agreed to.
        text: String,
        agreed: Option<DateTime<Utc>>,
    },
    /// The time that held does so no longer.
    CalledOff,
    Settled,
    Reopened,
}

impl Event {
    /// What this says about the time that holds: `None` when nothing, `Some(None)` when there is none any more.
    pub(super) fn agreement(&self) -> Option<Option<DateTime<Utc>>> {
        match self.kind {
            Kind::Answered { agreed, .. } => agreed.map(Some),
            Kind::CalledOff => Some(None),
            Kind::Settled | Kind::Reopened => None,
        }
    }

    /// Whether the wish waits no longer for its sake, as the record's own trigger has it.
    pub(super) fn settles(&self) -> bool {
        matches!(
            self.kind,
            Kind::Settled
                | Kind::Answered {
                    agreed: Some(_),
                    ..
                }
        )
    }
}

/// Everything that happened to a wish, oldest first.
pub(super) fn of_wish(record: &Connection, wish: Uuid) -> Result<Vec<Event>, RecordError> {
    let mut statement = record.prepare_cached(
        "select kind, at, text, agreed_at, name from wish_events join artists on artists.id = wish_events.made_by
         where wish = ?1 order by at, wish_events.rowid",
    )?;
    let mut rows = statement.query([wish])?;
    let mut events = Vec::new();
    while let Some(row) = rows.next()? {
        let kind: String = row.get("kind")?;
        events.push(Event {
            kind: match kind.as_str() {
                "answered" => Kind::Answered {
                    text: row.get("text")?,
                    agreed: maybe_instant(row, "agreed_at")?,
                },
                "called_off" => Kind::CalledOff,
                "settled" => Kind::Settled,
                "reopened" => Kind::Reopened,
                other => return Err(RecordError::Unreadable(format!("a wish was {other}"))),
            },
            at: instant(row, "at")?,
            by: row.get("name")?,
        });
    }
    Ok(events)
}

/// The studio's answer: words, a time agreed to, or both.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Answer {
    pub text: String,
    pub agreed: Option<DateTime<Utc>>,
}

/// Adds an answer. The same id with the same answer again adds nothing; with another answer, which is a form sent again
/// after going back, it is another one.
pub fn answer(
    record: &Connection,
    id: Uuid,
    wish: Uuid,
    answer: &Answer,
    by: Uuid,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    let before = record
        .prepare_cached("select text, agreed_at from wish_events where id = ?1")?
        .query_row([id], |row| {
            Ok(Answer {
                text: row.get("text")?,
                agreed: maybe_instant(row, "agreed_at")?,
            })
        })
        .optional()?;
    let id = match before {
        Some(before) if before == *answer => return Ok(()),
        Some(_) => Uuid::new_v4(),
        None => id,
    };
    record.execute(
        "insert into wish_events (id, wish, kind, at, made_by, text, agreed_at)
         values (?1, ?2, 'answered', ?3, ?4, ?5, ?6)",
        params![id, wish, At(now), by, answer.text, answer.agreed.map(At)],
    )?;
    Ok(())
}

/// Calls off the time that holds; without one nothing happens.
pub fn call_off(
    record: &Connection,
    wish: Uuid,
    by: Uuid,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    let holds = super::by_id(record, wish)?.and_then(|held| held.agreed());
    if holds.is_some() {
        add(record, wish, "called_off", by, now)?;
    }
    Ok(())
}

/// Settles a wish that waits.
pub fn settle(
    record: &Connection,
    wish: Uuid,
    by: Uuid,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    if super::by_id(record, wish)?.is_some_and(|held| held.waiting) {
        add(record, wish, "settled", by, now)?;
    }
    Ok(())
}

/// Lets a settled wish wait again.
pub fn reopen(
    record: &Connection,
    wish: Uuid,
    by: Uuid,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    if super::by_id(record, wish)?.is_some_and(|held| !held.waiting) {
        add(record, wish, "reopened", by, now)?;
    }
    Ok(())
}

fn add(
    record: &Connection,
    wish: Uuid,
    kind: &str,
    by: Uuid,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    record.execute(
        "insert into wish_events (id, wish, kind, at, made_by, text) values (?1, ?2, ?3, ?4, ?5, '')",
        params![Uuid::new_v4(), wish, kind, At(now), by],
    )?;
    Ok(())
}
