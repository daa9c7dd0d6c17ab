//! What is added to a patch test: what the artist read, what the client said, that it was withdrawn.

use chrono::{DateTime, Utc};
use rusqlite::{Connection, OptionalExtension, params};
use shared_types::patch_test::{Answer, Outcome};
use uuid::Uuid;

use super::{
    super::{
        RecordError,
        columns::{At, instant},
        links,
        reports::Taken,
    },
    unreadable,
};

/// Something that the artist noted of a test.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Event {
    pub kind: Kind,
    pub words: String,
    pub at: DateTime<Utc>,
    /// The artist's name.
    pub by: String,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    Read(Outcome),
    /// It was recorded by mistake.
    Withdrawn,
}

impl Event {
    /// What was read; `None` of a test that was withdrawn.
    pub fn outcome(&self) -> Option<Outcome> {
        match self.kind {
            Kind::Read(outcome) => Some(outcome),
            Kind::Withdrawn => None,
        }
    }
}

/// What the client said, and when.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Answered {
    pub id: Uuid,
    pub answer: Answer,
    pub received_at: DateTime<Utc>,
}

/// Everything that was noted of a test, oldest first.
pub(super) fn of_test(record: &Connection, test: Uuid) -> Result<Vec<Event>, RecordError> {
    let mut statement = record.prepare_cached(
        "select outcome, words, at, name from patch_test_events join artists on artists.id = made_by
         where test = ?1 order by at, patch_test_events.rowid",
    )?;
    let mut rows = statement.query([test])?;
    let mut events = Vec::new();
    while let Some(row) = rows.next()? {
        let outcome: Option<String> = row.get("outcome")?;
        events.push(Event {
            kind: match outcome {
                Some(term) => Kind::Read(unreadable(term.parse())?),
                None => Kind::Withdrawn,
            },
            words: row.get("words")?,
            at: instant(row, "at")?,
            by: row.get("name")?,
        });
    }
    Ok(events)
}

/// Everything that the client said of a test, oldest first.
pub(super) fn answers_of(record: &Connection, test: Uuid) -> Result<Vec<Answered>, RecordError> {
    let mut statement = record.prepare_cached(
        "select id, received_at, noticed, words, consent from patch_test_answers
         where test = ?1 order by received_at, rowid",
    )?;
    let mut rows = statement.query([test])?;
    let mut answers = Vec::new();
    while let Some(row) = rows.next()? {
        let noticed: String = row.get("noticed")?;
        answers.push(Answered {
            id: row.get("id")?,
            answer: Answer {
                noticed: unreadable(noticed.parse())?,
                words: row.get("words")?,
                consent: row.get("consent")?,
            },
            received_at: instant(row, "received_at")?,
        });
    }
    Ok(answers)
}

/// Adds what the artist read. The same again under the same id adds nothing; under the id of another reading, which is a
/// form sent again after going back, it is another one.
pub fn read(
    record: &Connection,
    id: Uuid,
    test: Uuid,
    outcome: Outcome,
    words: &str,
    by: Uuid,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    let before: Option<(Uuid, Option<String>, String)> = record
        .prepare_cached("select test, outcome, words from patch_test_events where id = ?1")?
        .query_row([id], |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?)))
        .optional()?;
    let told = (test, Some(outcome.term().to_owned()), words.to_owned());
    let id = match before {
        Some(before) if before == told => return Ok(()),
        Some(_) => Uuid::new_v4(),
        None => id,
    };
    record.execute(
        "insert into patch_test_events (id, test, kind, outcome, at, made_by, words)
         values (?1, ?2, 'read', ?3, ?4, ?5, ?6)",
        params![id, test, outcome.term(), At(now), by, words],
    )?;
    Ok(())
}

/// Withdraws a test and closes its page; one that is withdrawn stays so.
pub fn withdraw(
    record: &Connection,
    test: Uuid,
    why: &str,
    by: Uuid,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    let is_withdrawn: bool = record
        .prepare_cached(
            "select exists (select 1 from patch_test_events where test = ?1 and kind = 'withdrawn')",
        )?
        .query_row([test], |row| row.get(0))?;
    if is_withdrawn {
        return Ok(());
    }
    record.execute(
        "insert into patch_test_events (id, test, kind, at, made_by, words)
         values (?1, ?2, 'withdrawn', ?3, ?4, ?5)",
        params![Uuid::new_v4(), test, At(now), by, why],
    )?;
    links::revoke_all_of(record, links::Opens::PatchTest(test), by, now)
}

/// What the record says about an id, before anything is added: `None` when it is free.
pub fn standing_of(
    record: &Connection,
    id: Uuid,
    test: Uuid,
    answer: &Answer,
) -> Result<Option<Taken>, RecordError> {
    let whose: Option<Uuid> = record
        .prepare_cached("select test from patch_test_answers where id = ?1")?
        .query_row([id], |row| row.get(0))
        .optional()?;
    let Some(whose) = whose else {
        return Ok(None);
    };
    let held = answers_of(record, whose)?;
    let same = |one: &&Answered| one.id == id && whose == test && one.answer == *answer;
    Ok(Some(match held.iter().find(same) {
        Some(one) => Taken::Again(one.received_at),
        None => Taken::IdInUse,
    }))
}

/// Adds what the client said under the id that its form came with; the same again under the same id adds nothing.
pub fn take(
    record: &Connection,
    id: Uuid,
    test: Uuid,
    link: Uuid,
    answer: &Answer,
    now: DateTime<Utc>,
) -> Result<Taken, RecordError> {
    if let Some(taken) = standing_of(record, id, test, answer)? {
        return Ok(taken);
    }
    record.execute(
        "insert into patch_test_answers (id, test, link, received_at, noticed, words, consent)
         values (?1, ?2, ?3, ?4, ?5, ?6, ?7)",
        params![
            id,
            test,
            link,
            At(now),
            answer.noticed.term(),
            answer.words,
            answer.consent
        ],
    )?;
    Ok(Taken::New)
}
