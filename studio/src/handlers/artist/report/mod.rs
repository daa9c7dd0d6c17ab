//! One report on one screen: what was said and told, its visit, and what the artist adds.

mod answer;
mod not_again;
mod outcome;
mod screen;

pub use answer::{answer, see};
pub use not_again::{lift, note};
pub use outcome::note as note_outcome;

use axum::{
    extract::State,
    http::StatusCode,
    response::{Html, IntoResponse, Response},
};
use shared_types::page::form::Filled;
use uuid::Uuid;

use super::Id;
use crate::{
    error::Refusal,
    security::session::SignedIn,
    state::{Shared, Studio},
};

/// The forms of the screen, as far as they are to be mended.
#[derive(Default)]
struct Forms {
    answer: Filled,
    outcome: Option<Filled>,
    not_again: Filled,
}

/// `GET /studio/reports/{id}`
pub async fn show(
    State(studio): State<Shared>,
    signed: SignedIn,
    Id(id): Id,
) -> Result<Html<String>, Refusal> {
    screen::screen(&studio, &signed, id, Forms::default())
}

/// The screen again, with what is to be mended in it.
fn refused(
    studio: &Studio,
    signed: &SignedIn,
    id: Uuid,
    forms: Forms,
) -> Result<Response, Refusal> {
    let again = screen::screen(studio, signed, id, forms)?;
    Ok((StatusCode::UNPROCESSABLE_ENTITY, again).into_response())
}
