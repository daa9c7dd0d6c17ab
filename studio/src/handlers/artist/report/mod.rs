//! One report on one screen: what was said and told, its visit, and what the artist adds.

mod answer;
mod not_again;
mod outcome;

pub use answer::{answer, see};
pub use not_again::{lift, note};
pub use outcome::note as note_outcome;

use axum::{
    extract::State,
    http::StatusCode,
    response::{Html, IntoResponse, Response},
};
use shared_types::page::artist::Screen;
use uuid::Uuid;

use super::Id;
use crate::{
    error::Refusal,
    pages::{
        self,
        report::{self, Forms},
    },
    security::session::SignedIn,
    state::{Shared, Studio},
};

/// `GET /studio/reports/{id}`
pub async fn show(
    State(studio): State<Shared>,
    signed: SignedIn,
    Id(id): Id,
) -> Result<Html<String>, Refusal> {
    screen(&studio, &signed, id, Forms::default())
}

/// The screen again, with what is to be mended in it.
fn refused(
    studio: &Studio,
    signed: &SignedIn,
    id: Uuid,
    forms: Forms,
) -> Result<Response, Refusal> {
    let again = screen(studio, signed, id, forms)?;
    Ok((StatusCode::UNPROCESSABLE_ENTITY, again).into_response())
}

fn screen(
    studio: &Studio,
    signed: &SignedIn,
    id: Uuid,
    forms: Forms,
) -> Result<Html<String>, Refusal> {
    let particulars = pages::artist::particulars(studio)?;
    let wall = pages::artist::wall(studio, &particulars);
    let source = studio
        .record
        .read(|record| report::read(record, id, &particulars.language))?
        .ok_or(Refusal::NotFound)?;
    let view = report::view(studio, &particulars, source, forms, &wall, signed.now);
    pages::artist::screen(studio, &particulars, signed, Screen::Report(Box::new(view)))
}
