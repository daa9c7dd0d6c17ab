//! Giving a visit its link.

use chrono::{DateTime, TimeDelta, Utc};
use rusqlite::Connection;
use uuid::Uuid;

use super::secret::LinkKey;
use crate::record::{RecordError, links};

/// How long after the visit a link opens its page: our own choice. Brow hair takes up to four months to come back as
/// far as it does (the content's regrowth figures), and the next visit is long before.
pub const LIVES_FOR: TimeDelta = TimeDelta::days(120);
/// A link that is made anew for an old visit lives at least this long.
pub const LIVES_AT_LEAST: TimeDelta = TimeDelta::days(14);

/// Adds a link to a visit.
pub fn add(
    record: &Connection,
    key: &LinkKey,
    id: Uuid,
    visit: Uuid,
    finished_at: DateTime<Utc>,
    by: Uuid,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    let expires_at = (finished_at + LIVES_FOR).max(now + LIVES_AT_LEAST);
    links::add(
        record,
        id,
        visit,
        &key.secret_of(id).hash(),
        expires_at,
        by,
        now,
    )
}
