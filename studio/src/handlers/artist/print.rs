//! What the artist hands out on paper: the sheet, and the card to take home.

use axum::{extract::State, response::Html};
use uuid::Uuid;

use super::Id;
use crate::{
    error::Refusal,
    pages::{
        self,
        print::{Paper, paper},
    },
    record::links,
    security::session::SignedIn,
    state::{Now, Shared, Studio},
};

/// `GET /studio/visits/{id}/hand-over`
pub async fn sheet(
    State(studio): State<Shared>,
    signed: SignedIn,
    Id(visit): Id,
) -> Result<Html<String>, Refusal> {
    of_visit(&studio, &signed, visit, Paper::Sheet)
}

/// `GET /studio/visits/{id}/card`
pub async fn card(
    State(studio): State<Shared>,
    signed: SignedIn,
    Id(visit): Id,
) -> Result<Html<String>, Refusal> {
    of_visit(&studio, &signed, visit, Paper::Card)
}

fn of_visit(
    studio: &Studio,
    signed: &SignedIn,
    visit: Uuid,
    kind: Paper,
) -> Result<Html<String>, Refusal> {
    let link = studio
        .record
        .read(|record| links::newest_of(record, visit))?
        .ok_or(Refusal::NotFound)?;
    let source = pages::client::read(studio, &link)?;
    let secret = studio.link_key.showable(&link, signed.now);
    let back = format!("/studio/visits/{visit}");
    paper(
        studio,
        &source,
        secret.as_ref(),
        kind,
        &back,
        Now(signed.now),
    )
}
