//! A treatment that was put off: kept when the form of a visit says so, and shown.

use axum::{extract::State, response::Html};
use shared_types::page::artist::Screen;

use super::Id;
use crate::{
    error::Refusal,
    pages,
    record::{RecordError, clients, consultations},
    security::session::SignedIn,
    state::Shared,
};

/// `GET /studio/put-off/{id}`
pub async fn show(
    State(studio): State<Shared>,
    signed: SignedIn,
    Id(id): Id,
) -> Result<Html<String>, Refusal> {
    let particulars = pages::artist::particulars(&studio)?;
    let wall = pages::artist::wall(&studio, &particulars);
    let (held, all, client) = studio
        .record
        .read(|record| {
            let Some(held) = consultations::by_id(record, id)? else {
                return Ok(None);
            };
            let client = clients::by_id(record, held.consultation.client)?.ok_or_else(|| {
                RecordError::Unreadable("a consultation without its client".to_owned())
            })?;
            let all = consultations::put_off(record, client.id)?;
            Ok(Some((held, all, client)))
        })?
        // That of a visit is on the visit's screen.
        .filter(|(held, ..)| !held.consultation.has_visit)
        .ok_or(Refusal::NotFound)?;
    let view = pages::before::put_off_view(&held, &all, client, &wall, signed.now);
    pages::artist::screen(
        &studio,
        &particulars,
        &signed,
        Screen::PutOff(Box::new(view)),
    )
}
