//! Reactions by batch of a product.

use axum::{
    Json,
    extract::State,
    response::{Html, IntoResponse, Response},
};
use shared_types::page::artist::Screen;

use crate::{
    error::Refusal,
    pages,
    record::{
        RecordError,
        batches::{Tally, tally},
    },
    security::session::SignedIn,
    state::Shared,
};

/// `GET /studio/batches`
pub async fn show(State(studio): State<Shared>, signed: SignedIn) -> Result<Html<String>, Refusal> {
    let tally = count(&studio).await?;
    let particulars = pages::artist::particulars(&studio)?;
    let (_, words) = studio.words(&particulars.language);
    let screen = pages::batches::screen(&tally, &studio.content, words);
    pages::artist::screen(&studio, &particulars, &signed, Screen::Batches(screen))
}

/// `GET /studio/batches/counts.json`: what `studio batches` takes on its standard input.
pub async fn counts(State(studio): State<Shared>, _signed: SignedIn) -> Result<Response, Refusal> {
    let tally = count(&studio).await?;
    Ok(Json(pages::batches::question(&tally)).into_response())
}

/// Reads every visit, so not on the threads that serve.
async fn count(studio: &Shared) -> Result<Tally, Refusal> {
    let studio = studio.clone();
    let counting = tokio::task::spawn_blocking(move || {
        let rules = studio.content.catalogue.urgency.compiled();
        studio.record.read(|record| tally(record, &rules))
    });
    let counted = counting.await.map_err(|_| RecordError::Closing)?;
    Ok(counted?)
}
