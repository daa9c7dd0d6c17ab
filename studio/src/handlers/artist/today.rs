//! The first screen after signing in.

use axum::{extract::State, response::Html};
use shared_types::page::artist::{Screen, Today};

use crate::{
    error::Refusal,
    pages::{self, desk::Replies},
    record::{patch_tests::list, reports, visits, wishes},
    security::session::SignedIn,
    state::Shared,
};

/// Waiting reports and wishes on this screen; their lists have all.
const REPORTS: u32 = 5;
const WISHES: u32 = 5;
/// Patch tests on this screen, and those among which the most urgent are found.
const PATCH_TESTS: usize = 6;
const PATCH_TESTS_WAITING: u32 = 500;
const VISITS: u32 = 30;

/// `GET /studio`
pub async fn show(State(studio): State<Shared>, signed: SignedIn) -> Result<Html<String>, Refusal> {
    let particulars = pages::artist::particulars(&studio)?;
    let wall = pages::artist::wall(&studio, &particulars);
    let (waiting, wishes, tests, latest) = studio.record.read(|record| {
        Ok((
            reports::inbox::waiting(record, REPORTS)?,
            wishes::inbox::waiting(record, WISHES)?,
            list::waiting(record, PATCH_TESTS_WAITING)?,
            visits::latest(record, VISITS)?,
        ))
    })?;
    let replies = Replies::read(&studio)?;
    let mut patch_tests = pages::patch_tests::by_urgency(tests, &wall, signed.now);
    patch_tests.truncate(PATCH_TESTS);
    let screen = Screen::Today(Today {
        reports: waiting
            .iter()
            .map(|line| pages::reports::line(line, &replies, &wall, signed.now))
            .collect(),
        wishes: pages::wishes::lines(&wishes, &wall, signed.now),
        patch_tests,
        visits: latest
            .iter()
            .map(|line| pages::visits::line(line, &wall, signed.now))
            .collect(),
    });
    pages::artist::screen(&studio, &particulars, &signed, screen)
}
