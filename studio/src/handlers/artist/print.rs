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
    record::{languages, links},
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
    let found = studio.record.read(|record| {
        let Some(link) = links::newest_of(record, visit)? else {
            return Ok(None);
        };
        let shown = languages::shown(record, link.id)?;
        Ok(Some((link, shown)))
    })?;
    let (link, shown) = found.ok_or(Refusal::NotFound)?;
    // What a client already reads in another language is printed in that one.
    let particulars = pages::artist::particulars(studio)?;
    let language = shown.last().unwrap_or(&particulars.language);
    let source = pages::client::read_in(studio, &link, language)?;
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
