//! The lists of patch tests: those that wait to be read, and those that do not any more.

use rusqlite::Connection;

use super::{super::RecordError, FROM, Held, TEST, read_all};
use crate::record::clients::{self, Client};

/// A test in a list, with its client.
pub struct Line {
    pub held: Held,
    pub client: Client,
}

/// The tests that wait to be read, those put on first at the top.
pub fn waiting(record: &Connection, limit: u32) -> Result<Vec<Line>, RecordError> {
    let select = format!(
        "select {TEST} from {FROM} join waiting_patch_tests on waiting_patch_tests.test = patch_tests.id
         order by applied_at, patch_tests.rowid limit ?1"
    );
    lines(record, &select, limit)
}

/// The tests that were read or withdrawn, those put on last at the top.
pub fn done(record: &Connection, limit: u32) -> Result<Vec<Line>, RecordError> {
    let select = format!(
        "select {TEST} from {FROM}
         where not exists (select 1 from waiting_patch_tests where test = patch_tests.id)
         order by applied_at desc limit ?1"
    );
    lines(record, &select, limit)
}

fn lines(record: &Connection, select: &str, limit: u32) -> Result<Vec<Line>, RecordError> {
    let mut lines = Vec::new();
    for held in read_all(record, select, [limit])? {
        let client = clients::by_id(record, held.test.client)?
            .ok_or_else(|| RecordError::Unreadable("a patch test of nobody".to_owned()))?;
        lines.push(Line { held, client });
    }
    Ok(lines)
}
