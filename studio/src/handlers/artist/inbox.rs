//! The inbox of reports.

use axum::{extract::State, response::Html};
use shared_types::page::artist::{Reports, Screen};

use crate::{
    error::Refusal, pages, record::reports::inbox, security::session::SignedIn, state::Shared,
};

/// Far more than a studio leaves waiting; the rest come up as these are settled.
const WAITING: u32 = 500;
const SETTLED: u32 = 50;

/// `GET /studio/reports`
pub async fn show(State(studio): State<Shared>, signed: SignedIn) -> Result<Html<String>, Refusal> {
    let particulars = pages::artist::particulars(&studio)?;
    let wall = pages::artist::wall(&studio, &particulars);
    let (waiting, settled) = studio.record.read(|record| {
        Ok((
            inbox::waiting(record, WAITING)?,
            inbox::settled(record, SETTLED)?,
        ))
    })?;
    let lines = |lines: &[inbox::Line]| {
        lines
            .iter()
            .map(|line| pages::reports::line(line, &wall, signed.now))
            .collect()
    };
    let screen = Screen::Reports(Reports {
        waiting: lines(&waiting),
        settled: lines(&settled),
    });
    pages::artist::screen(&studio, &particulars, &signed, screen)
}
