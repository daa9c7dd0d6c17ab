//! The inbox of reports.

use axum::{extract::State, response::Html};
use shared_types::page::{artist::Screen, reports::Reports};

use super::waits::{SETTLED, WAITING};
use crate::{
    error::Refusal,
    pages::{self, desk::Replies},
    record::reports::inbox,
    security::session::SignedIn,
    state::Shared,
};

/// `GET /studio/reports`
pub async fn show(State(studio): State<Shared>, signed: SignedIn) -> Result<Html<String>, Refusal> {
    let particulars = pages::artist::particulars(&studio)?;
    let wall = pages::artist::wall(&studio, &particulars);
    let replies = Replies::read(&studio)?;
    let (open, settled) = studio.record.read(|record| {
        Ok((
            inbox::waiting(record, WAITING)?,
            inbox::settled(record, SETTLED)?,
        ))
    })?;
    let (answered, waiting): (Vec<_>, Vec<_>) =
        open.into_iter().partition(|line| line.held.is_answered());
    let lines = |lines: &[inbox::Line]| {
        lines
            .iter()
            .map(|line| pages::reports::line(line, &replies, &wall, signed.now))
            .collect()
    };
    let screen = Screen::Reports(Reports {
        waiting: lines(&waiting),
        answered: lines(&answered),
        settled: lines(&settled),
    });
    pages::artist::screen(&studio, &particulars, &signed, screen)
}
