//! The personal links, and what happened to each.

use chrono::{DateTime, Utc};
use rusqlite::{Connection, OptionalExtension, Row, params};
use uuid::Uuid;

use super::{
    RecordError,
    columns::{At, instant, maybe_instant},
};

/// Whose page a link opens.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Opens {
    Visit(Uuid),
    PatchTest(Uuid),
}

impl Opens {
    /// The column that names it, and its id.
    fn column(self) -> (&'static str, Uuid) {
        match self {
            Self::Visit(id) => ("visit", id),
            Self::PatchTest(id) => ("patch_test", id),
        }
    }
}

/// A link and what happened to it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Link {
    pub id: Uuid,
    pub opens: Opens,
    pub expires_at: DateTime<Utc>,
    pub opened: Option<DateTime<Utc>>,
    pub revoked: Option<DateTime<Utc>>,
    /// SHA-256 of its secret.
    pub secret_hash: [u8; 32],
}

impl Link {
    /// Whether the page still opens.
    pub fn lives(&self, now: DateTime<Utc>) -> bool {
        self.revoked.is_none() && now < self.expires_at
    }
}

/// The columns that [`read`] needs; `links` must be in the statement's `from`.
pub(super) const COLUMNS: &str =
    "links.id, links.visit, links.patch_test, links.expires_at, links.secret_hash,
    (select at from link_events where link = links.id and kind = 'opened') as opened,
    (select at from link_events where link = links.id and kind = 'revoked') as revoked";

pub(super) fn read(row: &Row<'_>) -> rusqlite::Result<Link> {
    Ok(Link {
        id: row.get("id")?,
        opens: match row.get("visit")? {
            Some(visit) => Opens::Visit(visit),
            None => Opens::PatchTest(row.get("patch_test")?),
        },
        expires_at: instant(row, "expires_at")?,
        opened: maybe_instant(row, "opened")?,
        revoked: maybe_instant(row, "revoked")?,
        secret_hash: row.get("secret_hash")?,
    })
}

/// The newest link of a visit.
pub fn newest_of(record: &Connection, visit: Uuid) -> Result<Option<Link>, RecordError> {
    newest_to(record, Opens::Visit(visit))
}

/// The newest link to a page.
pub fn newest_to(record: &Connection, opens: Opens) -> Result<Option<Link>, RecordError> {
    let (column, id) = opens.column();
    let mut statement = record.prepare_cached(&format!(
        "select {COLUMNS} from links where {column} = ?1 order by made_at desc, rowid desc limit 1"
    ))?;
    Ok(statement.query_row([id], read).optional()?)
}

/// Adds a link.
pub fn add(
    record: &Connection,
    id: Uuid,
    opens: Opens,
    secret_hash: &[u8; 32],
    expires_at: DateTime<Utc>,
    by: Uuid,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    let (column, what) = opens.column();
    record.execute(
        &format!(
            "insert into links (id, {column}, made_at, made_by, expires_at, secret_hash) values (?1, ?2, ?3, ?4, ?5, ?6)"
        ),
        params![id, what, At(now), by, At(expires_at), secret_hash],
    )?;
    Ok(())
}

/// Notes the first opening by the client; later ones change nothing.
pub fn note_opened(record: &Connection, link: Uuid, now: DateTime<Utc>) -> Result<(), RecordError> {
    record.execute(
        "insert or ignore into link_events (link, kind, at) values (?1, 'opened', ?2)",
        params![link, At(now)],
    )?;
    Ok(())
}

/// Revokes every link to a page that is not revoked yet.
pub fn revoke_all_of(
    record: &Connection,
    opens: Opens,
    by: Uuid,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    let (column, what) = opens.column();
    record.execute(
        &format!(
            "insert or ignore into link_events (link, kind, at, made_by)
             select id, 'revoked', ?2, ?3 from links where {column} = ?1"
        ),
        params![what, At(now), by],
    )?;
    Ok(())
}
