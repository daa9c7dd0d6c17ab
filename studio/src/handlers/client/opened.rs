//! The page says that it was opened.

use axum::{extract::State, http::StatusCode};

use super::Holder;
use crate::{error::Refusal, record::links, state::Shared};

/// `POST /MY/{secret}/opened`: sent by the living page, since looking alone must change nothing. The first counts.
pub async fn note(State(studio): State<Shared>, holder: Holder) -> Result<StatusCode, Refusal> {
    if holder.link.opened.is_none() {
        let (link, now) = (holder.link.id, holder.now.0);
        studio
            .record
            .write(move |record| links::note_opened(record, link, now))
            .await?;
    }
    Ok(StatusCode::NO_CONTENT)
}
