//! Dates that clients want to look their best for.

use chrono::{DateTime, NaiveDate, Utc};
use rusqlite::{Connection, OptionalExtension, Row, params};
use uuid::Uuid;

use super::{
    RecordError,
    columns::{At, instant, maybe_term},
};

/// A date, with the days between the visit and it, at least and at most.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Date {
    pub on: NaiveDate,
    pub days_before: (u16, u16),
    pub given_at: DateTime<Utc>,
}

/// The date that counts for a visit; `None` when none was given, or when it was taken back.
pub fn of_visit(record: &Connection, visit: Uuid) -> Result<Option<Date>, RecordError> {
    let mut statement = record.prepare_cached(
        "select date, days_least, days_most, made_at from occasions
         where visit = ?1 order by rowid desc limit 1",
    )?;
    Ok(statement.query_row([visit], read).optional()?.flatten())
}

fn read(row: &Row<'_>) -> rusqlite::Result<Option<Date>> {
    let Some(on) = maybe_term(row, "date")? else {
        return Ok(None);
    };
    Ok(Some(Date {
        on,
        days_before: (row.get("days_least")?, row.get("days_most")?),
        given_at: instant(row, "made_at")?,
    }))
}

/// Adds a date. The same again adds nothing.
pub fn give(record: &Connection, visit: Uuid, link: Uuid, date: &Date) -> Result<(), RecordError> {
    if of_visit(record, visit)?.is_some_and(|known| known.on == date.on) {
        return Ok(());
    }
    let (least, most) = date.days_before;
    record.execute(
        "insert into occasions (visit, link, made_at, date, days_least, days_most)
         values (?1, ?2, ?3, ?4, ?5, ?6)",
        params![
            visit,
            link,
            At(date.given_at),
            date.on.to_string(),
            least,
            most
        ],
    )?;
    Ok(())
}

/// Takes the date of a visit back, if there is one.
pub fn take_back(
    record: &Connection,
    visit: Uuid,
    link: Uuid,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    if of_visit(record, visit)?.is_some() {
        record.execute(
            "insert into occasions (visit, link, made_at) values (?1, ?2, ?3)",
            params![visit, link, At(now)],
        )?;
    }
    Ok(())
}
