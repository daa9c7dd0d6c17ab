//! Giving a visit or a patch test its link.

use chrono::{DateTime, TimeDelta, Utc};
use rusqlite::Connection;
use uuid::Uuid;

use super::secret::LinkKey;
use crate::record::{
    RecordError,
    links::{self, Opens},
};

/// How long after the visit a link opens its page: our own choice. Brow hair takes up to four months to come back as
/// far as it does (the content's regrowth figures), and the next visit is long before.
pub const LIVES_FOR: TimeDelta = TimeDelta::days(120);
/// A link that is made anew for an old visit lives at least this long.
pub const LIVES_AT_LEAST: TimeDelta = TimeDelta::days(14);

/// How long after it was put on a link opens the page of a patch test: our own choice. Its reactions show within a week
/// (the content's `last_days`), and the treatment follows soon.
pub const LIVES_FOR_TEST: TimeDelta = TimeDelta::days(30);

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
    let hash = key.secret_of(id).hash();
    links::add(record, id, Opens::Visit(visit), &hash, expires_at, by, now)
}

/// Adds a link to a patch test.
pub fn add_to_test(
    record: &Connection,
    key: &LinkKey,
    id: Uuid,
    test: Uuid,
    applied_at: DateTime<Utc>,
    by: Uuid,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    let expires_at = (applied_at + LIVES_FOR_TEST).max(now + LIVES_AT_LEAST);
    let hash = key.secret_of(id).hash();
    let opens = Opens::PatchTest(test);
    links::add(record, id, opens, &hash, expires_at, by, now)
}
