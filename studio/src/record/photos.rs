//! Photos: what the record says of them. The pictures themselves are files (`photos/folder.rs`).

use std::collections::HashSet;

use chrono::{DateTime, Utc};
use rusqlite::{Connection, OptionalExtension, Row, params};
use shared_types::photos::PHOTOS_MAX;
use uuid::Uuid;

use super::{
    RecordError,
    columns::{At, instant},
};

/// A photo as the record holds it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Photo {
    pub id: Uuid,
    pub visit: Uuid,
    /// `None` for one that was taken at the end of the visit.
    pub report: Option<Uuid>,
    pub received_at: DateTime<Utc>,
    /// The name of its file.
    pub file: String,
    /// Pixels.
    pub width: u32,
    pub height: u32,
    /// Bytes as they came in.
    pub sent: u32,
}

/// Whose a photo is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Whose {
    /// The client's, of a report, through a link.
    Report { report: Uuid, link: Uuid },
    /// The artist's, at the end of the visit.
    Visit { artist: Uuid },
}

/// A photo that is on disk and not yet in the record.
#[derive(Clone, Debug)]
pub struct Fresh {
    pub id: Uuid,
    pub visit: Uuid,
    pub whose: Whose,
    /// The version of the words about photos that the client agreed to.
    pub consent: String,
    /// Those words, where they are kept nowhere else.
    pub agreed_to: String,
    pub file: String,
    pub sha256: [u8; 32],
    pub width: u32,
    pub height: u32,
    pub sent: u32,
}

/// What became of a photo that was sent.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Taken {
    New,
    /// The same picture is there already, under this id.
    Again(Uuid),
    /// Another photo has this id.
    IdInUse,
    /// There are as many as there may be.
    TooMany,
}

const PHOTO: &str =
    "select id, visit, report, received_at, file, width, height, sent from photos where
    not exists (select 1 from photo_events where photo = photos.id and kind = 'taken_out') and ";

fn read(row: &Row<'_>) -> rusqlite::Result<Photo> {
    Ok(Photo {
        id: row.get("id")?,
        visit: row.get("visit")?,
        report: row.get("report")?,
        received_at: instant(row, "received_at")?,
        file: row.get("file")?,
        width: row.get("width")?,
        height: row.get("height")?,
        sent: row.get("sent")?,
    })
}

fn list(record: &Connection, which: &str, id: Uuid) -> Result<Vec<Photo>, RecordError> {
    let mut statement = record.prepare_cached(&format!("{PHOTO} {which}"))?;
    let photos = statement.query_map([id], read)?.collect::<Result<_, _>>()?;
    Ok(photos)
}

/// The photos of a report, in the order in which they came.
pub fn of_report(record: &Connection, report: Uuid) -> Result<Vec<Photo>, RecordError> {
    list(record, "report = ?1 order by received_at, rowid", report)
}

/// The photos that were taken at the end of a visit, in the order in which they came.
pub fn of_visit(record: &Connection, visit: Uuid) -> Result<Vec<Photo>, RecordError> {
    list(
        record,
        "report is null and visit = ?1 order by received_at, rowid",
        visit,
    )
}

/// One photo, unless it was taken out.
pub fn by_id(record: &Connection, id: Uuid) -> Result<Option<Photo>, RecordError> {
    Ok(list(record, "id = ?1", id)?.pop())
}

/// Adds a photo whose file is on disk. There may be [`PHOTOS_MAX`] of a report, and as many of the end of a visit.
pub fn add(record: &Connection, fresh: &Fresh, now: DateTime<Utc>) -> Result<Taken, RecordError> {
    if exists(record, fresh.id)? {
        return Ok(Taken::IdInUse);
    }
    let (report, link, artist, beside) = match fresh.whose {
        Whose::Report { report, link } => {
            (Some(report), Some(link), None, of_report(record, report)?)
        }
        Whose::Visit { artist } => (None, None, Some(artist), of_visit(record, fresh.visit)?),
    };
    for photo in &beside {
        let same: bool = record
            .prepare_cached("select sha256 = ?2 from photos where id = ?1")?
            .query_row(params![photo.id, fresh.sha256], |row| row.get(0))?;
        if same {
            return Ok(Taken::Again(photo.id));
        }
    }
    if beside.len() >= PHOTOS_MAX as usize {
        return Ok(Taken::TooMany);
    }
    record.execute(
        "insert into photos (id, visit, report, link, made_by, received_at, consent, agreed_to, file, sha256, width, height, sent)
         values (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13)",
        params![
            fresh.id,
            fresh.visit,
            report,
            link,
            artist,
            At(now),
            fresh.consent,
            fresh.agreed_to,
            fresh.file,
            fresh.sha256,
            fresh.width,
            fresh.height,
            fresh.sent
        ],
    )?;
    Ok(Taken::New)
}

/// What the sender of a visit's report said about photos.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Announced {
    /// The version of the words about photos that they agreed to.
    pub consent: Option<String>,
    /// How many were to follow.
    pub count: u32,
}

/// `None` when this visit has no such report.
pub fn announced(
    record: &Connection,
    visit: Uuid,
    report: Uuid,
) -> Result<Option<Announced>, RecordError> {
    let mut statement = record.prepare_cached(
        "select photos_announced,
            (select version from report_consents where report = reports.id and purpose = 'photos') as consent
         from reports where id = ?1 and visit = ?2",
    )?;
    let found = statement.query_row([report, visit], |row| {
        Ok(Announced {
            consent: row.get("consent")?,
            count: row.get("photos_announced")?,
        })
    });
    Ok(found.optional()?)
}

/// Whether there is such a photo, or was.
pub fn exists(record: &Connection, id: Uuid) -> Result<bool, RecordError> {
    let found: Option<bool> = record
        .prepare_cached("select true from photos where id = ?1")?
        .query_row([id], |row| row.get(0))
        .optional()?;
    Ok(found.is_some())
}

/// Takes a photo out: its row stays, and its file is to be erased once this is on disk. `None` when there is none, or none
/// any more.
pub fn take_out(
    record: &Connection,
    id: Uuid,
    by: Uuid,
    now: DateTime<Utc>,
) -> Result<Option<Photo>, RecordError> {
    let Some(photo) = by_id(record, id)? else {
        return Ok(None);
    };
    record.execute(
        "insert into photo_events (photo, kind, at, made_by) values (?1, 'taken_out', ?2, ?3)",
        params![id, At(now), by],
    )?;
    Ok(Some(photo))
}

/// Whether there are any, or were.
pub fn any(record: &Connection) -> Result<bool, RecordError> {
    Ok(record.query_row("select exists (select 1 from photos)", [], |row| row.get(0))?)
}

/// The names of all files that the record speaks of.
pub fn files(record: &Connection) -> Result<HashSet<String>, RecordError> {
    let mut statement = record.prepare(
        "select file from photos where not exists
            (select 1 from photo_events where photo = photos.id and kind = 'taken_out')",
    )?;
    let files = statement.query_map([], |row| row.get(0))?;
    Ok(files.collect::<Result<_, _>>()?)
}

#[cfg(test)]
pub mod testing;
#[cfg(test)]
mod tests;
