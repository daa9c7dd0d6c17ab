//! The first screen after signing in.

use axum::{extract::State, response::Html};
use shared_types::page::artist::{Screen, Today};

use crate::{
    error::Refusal,
    pages,
    record::{reports, visits, wishes},
    security::session::SignedIn,
    state::Shared,
};

/// Waiting reports and wishes on this screen; their lists have all.
const REPORTS: u32 = 5;
const WISHES: u32 = 5;
const VISITS: u32 = 30;

/// `GET /studio`
pub async fn show(State(studio): State<Shared>, signed: SignedIn) -> Result<Html<String>, Refusal> {
    let particulars = pages::artist::particulars(&studio)?;
    let wall = pages::artist::wall(&studio, &particulars);
    let (waiting, wishes, latest) = studio.record.read(|record| {
        Ok((
            reports::inbox::waiting(record, REPORTS)?,
            wishes::inbox::waiting(record, WISHES)?,
            visits::latest(record, VISITS)?,
        ))
    })?;
    let screen = Screen::Today(Today {
        reports: waiting
            .iter()
            .map(|line| pages::reports::line(line, &wall, signed.now))
            .collect(),
        wishes: pages::wishes::lines(&wishes, &wall, signed.now),
        visits: latest
            .iter()
            .map(|line| pages::visits::line(line, &wall, signed.now))
            .collect(),
    });
    pages::artist::screen(&studio, &particulars, &signed, screen)
}
