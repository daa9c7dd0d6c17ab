//! Each time that a notice was tried, and what came of it.

use chrono::{DateTime, Utc};
use rusqlite::{Connection, OptionalExtension, params};
use uuid::Uuid;

use super::super::{
    RecordError,
    columns::{At, instant, maybe_instant},
};
use crate::notices::Way;

/// What came of an attempt. Texts are those of [`crate::notices::fault::Fault`].
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// The other side said that it has it.
    Sent,
    Failed {
        fault: String,
        detail: String,
        /// When it is tried again.
        next_at: DateTime<Utc>,
    },
    /// It failed, and too much time has gone by to try again.
    GivenUp { fault: String, detail: String },
    /// The report was settled, or the way switched off, before it went out.
    NotNeeded,
}

impl Outcome {
    const fn term(&self) -> &'static str {
        match self {
            Self::Sent => "sent",
            Self::Failed { .. } => "failed",
            Self::GivenUp { .. } => "given_up",
            Self::NotNeeded => "not_needed",
        }
    }
}

/// Notes an attempt.
pub fn note(
    record: &Connection,
    notice: Uuid,
    outcome: &Outcome,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    let (fault, detail) = match outcome {
        Outcome::Failed { fault, detail, .. } | Outcome::GivenUp { fault, detail } => {
            (fault.as_str(), detail.as_str())
        }
        Outcome::Sent | Outcome::NotNeeded => ("", ""),
    };
    record.execute(
        "insert into notice_attempts (notice, at, outcome, fault, detail) values (?1, ?2, ?3, ?4, ?5)",
        params![notice, At(now), outcome.term(), fault, detail],
    )?;
    if let Outcome::Failed { next_at, .. } = outcome {
        record.execute(
            "update waiting_notices set next_at = ?2 where notice = ?1",
            params![notice, At(*next_at)],
        )?;
    }
    Ok(())
}

/// How the latest attempt of a way went.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Last {
    pub at: DateTime<Utc>,
    pub sent: bool,
    /// The term of the fault, and the other side's words; empty when it went out.
    pub fault: String,
    pub detail: String,
    /// How often this notice was tried.
    pub times: u32,
    /// When it is tried again; `None` when it is not.
    pub next_at: Option<DateTime<Utc>>,
}

/// The latest attempt of a way; `None` when nothing was tried yet.
pub fn last(record: &Connection, way: Way) -> Result<Option<Last>, RecordError> {
    let mut statement = record.prepare_cached(
        "select at, outcome, fault, detail, next_at,
                (select count(*) from notice_attempts as one where one.notice = notices.id) as times
         from notice_attempts join notices on notices.id = notice_attempts.notice
         left join waiting_notices on waiting_notices.notice = notices.id
         where notices.way = ?1 and outcome <> 'not_needed' order by notice_attempts.id desc limit 1",
    )?;
    let found = statement.query_row([way.term()], |row| {
        Ok(Last {
            at: instant(row, "at")?,
            sent: row.get::<_, String>("outcome")? == "sent",
            fault: row.get("fault")?,
            detail: row.get("detail")?,
            times: row.get("times")?,
            next_at: maybe_instant(row, "next_at")?,
        })
    });
    Ok(found.optional()?)
}

/// Whether each of these was tried at least once.
pub fn all_tried(record: &Connection, notices: &[Uuid]) -> Result<bool, RecordError> {
    let mut statement =
        record.prepare_cached("select exists (select 1 from notice_attempts where notice = ?1)")?;
    for notice in notices {
        if !statement.query_row([notice], |row| row.get::<_, bool>(0))? {
            return Ok(false);
        }
    }
    Ok(true)
}
