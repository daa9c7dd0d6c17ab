//! How values that are not SQLite's own are written in a column.

use std::{error::Error, str::FromStr};

use chrono::{DateTime, Utc};
use rusqlite::{
    Row, ToSql,
    types::{FromSql, FromSqlError, FromSqlResult, ToSqlOutput, Type, ValueRef},
};
use serde::{Serialize, de::DeserializeOwned};

use super::RecordError;

/// An instant: milliseconds since 1970-01-01 UTC.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct At(pub DateTime<Utc>);

impl ToSql for At {
    fn to_sql(&self) -> rusqlite::Result<ToSqlOutput<'_>> {
        Ok(self.0.timestamp_millis().into())
    }
}

impl FromSql for At {
    fn column_result(value: ValueRef<'_>) -> FromSqlResult<Self> {
        let ms = value.as_i64()?;
        DateTime::from_timestamp_millis(ms)
            .map(At)
            .ok_or(FromSqlError::OutOfRange(ms))
    }
}

/// The instant in a column.
pub fn instant(row: &Row<'_>, column: &str) -> rusqlite::Result<DateTime<Utc>> {
    row.get::<_, At>(column).map(|at| at.0)
}

/// The instant in a column that may be empty.
pub fn maybe_instant(row: &Row<'_>, column: &str) -> rusqlite::Result<Option<DateTime<Utc>>> {
    row.get::<_, Option<At>>(column).map(|at| at.map(|at| at.0))
}

/// What is written in a column as its term: one of a closed set, a date.
pub fn term<T>(row: &Row<'_>, column: &str) -> rusqlite::Result<T>
where
    T: FromStr<Err: Error + Send + Sync + 'static>,
{
    let text: String = row.get(column)?;
    text.parse().map_err(|error| {
        let place = row.as_ref().column_index(column).unwrap_or_default();
        rusqlite::Error::FromSqlConversionFailure(place, Type::Text, Box::new(error))
    })
}

/// The same in a column that may be empty.
pub fn maybe_term<T>(row: &Row<'_>, column: &str) -> rusqlite::Result<Option<T>>
where
    T: FromStr<Err: Error + Send + Sync + 'static>,
{
    match row.get_ref(column)? {
        ValueRef::Null => Ok(None),
        _ => term(row, column).map(Some),
    }
}

/// A value as JSON text.
pub fn to_json<T: Serialize>(value: &T) -> Result<String, RecordError> {
    serde_json::to_string(value).map_err(|e| RecordError::Unreadable(e.to_string()))
}

/// A value from JSON text.
pub fn from_json<T: DeserializeOwned>(text: &str) -> Result<T, RecordError> {
    serde_json::from_str(text).map_err(|e| RecordError::Unreadable(e.to_string()))
}

/// The value whose JSON text is in a column.
pub fn json<T: DeserializeOwned>(row: &Row<'_>, column: &str) -> Result<T, RecordError> {
    let text = row
        .get_ref(column)?
        .as_str()
        .map_err(rusqlite::Error::from)?;
    from_json(text)
}
