//! What waits for the artist and is settled: reports and wishes. What is the same for both stands here once.

use std::future::Future;

use axum::{extract::State, response::Redirect};
use chrono::{DateTime, Utc};
use rusqlite::{Connection, Transaction};
use uuid::Uuid;

use super::Id;
use crate::{
    error::Refusal,
    handlers::posted::only,
    record::{RecordError, reports, wishes},
    security::session::SignedForm,
    state::{Shared, Studio},
};

/// Far more than a studio leaves waiting; the rest come up as these are settled.
pub const WAITING: u32 = 500;
pub const SETTLED: u32 = 50;

/// Something that waits until it is settled, and may be opened again.
pub trait Waits: 'static {
    /// The address of the list; one of them is below it, by its id.
    const LIST: &'static str;

    fn exists(record: &Connection, id: Uuid) -> Result<bool, RecordError>;

    fn settle(
        record: &Connection,
        id: Uuid,
        by: Uuid,
        now: DateTime<Utc>,
    ) -> Result<(), RecordError>;

    fn reopen(
        record: &Connection,
        id: Uuid,
        by: Uuid,
        now: DateTime<Utc>,
    ) -> Result<(), RecordError>;
}

pub struct Reports;

impl Waits for Reports {
    const LIST: &'static str = "/studio/reports";

    fn exists(record: &Connection, id: Uuid) -> Result<bool, RecordError> {
        Ok(reports::by_id(record, id)?.is_some())
    }

    /// Whoever settles it has seen it.
    fn settle(
        record: &Connection,
        id: Uuid,
        by: Uuid,
        now: DateTime<Utc>,
    ) -> Result<(), RecordError> {
        reports::events::see(record, id, by, now)?;
        reports::events::settle(record, id, by, now)
    }

    fn reopen(
        record: &Connection,
        id: Uuid,
        by: Uuid,
        now: DateTime<Utc>,
    ) -> Result<(), RecordError> {
        reports::events::reopen(record, id, by, now)
    }
}

pub struct Wishes;

impl Waits for Wishes {
    const LIST: &'static str = "/studio/wishes";

    fn exists(record: &Connection, id: Uuid) -> Result<bool, RecordError> {
        Ok(wishes::by_id(record, id)?.is_some())
    }

    fn settle(
        record: &Connection,
        id: Uuid,
        by: Uuid,
        now: DateTime<Utc>,
    ) -> Result<(), RecordError> {
        wishes::events::settle(record, id, by, now)
    }

    fn reopen(
        record: &Connection,
        id: Uuid,
        by: Uuid,
        now: DateTime<Utc>,
    ) -> Result<(), RecordError> {
        wishes::events::reopen(record, id, by, now)
    }
}

/// `POST …/{id}/settle`: back to the list.
pub async fn settle<W: Waits>(
    State(studio): State<Shared>,
    Id(id): Id,
    SignedForm { signed, form }: SignedForm,
) -> Result<Redirect, Refusal> {
    only(&form, &[])?;
    write::<W, _>(&studio, id, move |record| {
        W::settle(record, id, signed.artist, signed.now)
    })
    .await?;
    Ok(Redirect::to(W::LIST))
}

/// `POST …/{id}/reopen`: back to it.
pub async fn reopen<W: Waits>(
    State(studio): State<Shared>,
    Id(id): Id,
    SignedForm { signed, form }: SignedForm,
) -> Result<Redirect, Refusal> {
    only(&form, &[])?;
    write::<W, _>(&studio, id, move |record| {
        W::reopen(record, id, signed.artist, signed.now)
    })
    .await?;
    Ok(back::<W>(id))
}

/// To its screen.
pub fn back<W: Waits>(id: Uuid) -> Redirect {
    Redirect::to(&format!("{}/{id}", W::LIST))
}

/// Adds to what happened to one that exists.
pub fn write<W: Waits, T: Send + 'static>(
    studio: &Studio,
    id: Uuid,
    write: impl FnOnce(&Transaction<'_>) -> Result<T, RecordError> + Send + 'static,
) -> impl Future<Output = Result<T, Refusal>> {
    studio.record.write(move |record| {
        if !W::exists(record, id)? {
            return Err(Refusal::NotFound);
        }
        write(record).map_err(Refusal::from)
    })
}
