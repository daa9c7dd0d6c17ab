//! What the artist hands out on paper: the sheet, and the card to take home.

use axum::{
    extract::{Query, State},
    response::Html,
};
use serde::Deserialize;
use uuid::Uuid;

use super::Id;
use crate::{
    error::Refusal,
    pages::{
        self,
        print::{Around, Paper, paper},
    },
    record::{advice, languages, links},
    security::session::SignedIn,
    state::{Now, Shared, Studio},
};

/// In which language, where the artist chose one.
#[derive(Deserialize)]
pub struct Wish {
    language: Option<String>,
}

/// `GET /studio/visits/{id}/hand-over`
pub async fn sheet(
    State(studio): State<Shared>,
    signed: SignedIn,
    Id(visit): Id,
    Query(wish): Query<Wish>,
) -> Result<Html<String>, Refusal> {
    of_visit(&studio, &signed, visit, &wish, Paper::Sheet)
}

/// `GET /studio/visits/{id}/card`
pub async fn card(
    State(studio): State<Shared>,
    signed: SignedIn,
    Id(visit): Id,
    Query(wish): Query<Wish>,
) -> Result<Html<String>, Refusal> {
    of_visit(&studio, &signed, visit, &wish, Paper::Card)
}

fn of_visit(
    studio: &Studio,
    signed: &SignedIn,
    visit: Uuid,
    wish: &Wish,
    kind: Paper,
) -> Result<Html<String>, Refusal> {
    let found = studio.record.read(|record| {
        let Some(link) = links::newest_of(record, visit)? else {
            return Ok(None);
        };
        let shown = languages::shown(record, link.id)?;
        let languages = advice::languages(record, visit)?;
        Ok(Some((link, shown, languages)))
    })?;
    let (link, shown, languages) = found.ok_or(Refusal::NotFound)?;
    // What a client already reads in another language is printed in that one, unless the artist chose.
    let particulars = pages::artist::particulars(studio)?;
    let chosen = wish.language.as_ref().or(shown.last());
    let language = chosen.unwrap_or(&particulars.language);
    let source = pages::client::read_in(studio, &link, language)?;
    let secret = studio.link_key.showable(&link, signed.now);
    paper(
        studio,
        &source,
        secret.as_ref(),
        kind,
        Around {
            back: format!("/studio/visits/{visit}"),
            languages,
        },
        Now(signed.now),
    )
}
