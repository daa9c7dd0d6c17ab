//! The page says that it was opened, and in which language.

use axum::{
    extract::{Query, State},
    http::StatusCode,
};
use serde::Deserialize;

use super::Holder;
use crate::{
    error::Refusal,
    record::{RecordError, languages, links},
    state::Shared,
};

#[derive(Deserialize)]
pub struct Shown {
    /// The language of the page that was shown, which may be one that the phone kept; without it, the one that the page
    /// would be shown in now.
    language: Option<String>,
}

/// `POST /MY/{secret}/opened?language=…`: sent by the living page, since looking alone must change nothing. The first
/// counts, and the first in each language.
pub async fn note(
    State(studio): State<Shared>,
    holder: Holder,
    Query(shown): Query<Shown>,
) -> Result<StatusCode, Refusal> {
    let language = shown.language.unwrap_or(holder.language);
    if !holder.languages.contains(&language) {
        return Err(Refusal::LanguageUnknown);
    }
    let (link, now) = (holder.link.id, holder.now.0);
    let shown = studio
        .record
        .look(|record| languages::shown(record, link))?;
    if holder.link.opened.is_some() && shown.contains(&language) {
        return Ok(StatusCode::NO_CONTENT);
    }
    studio
        .record
        .write(move |record| {
            links::note_opened(record, link, now)?;
            languages::note_shown(record, link, &language, now)?;
            Ok::<_, RecordError>(())
        })
        .await?;
    Ok(StatusCode::NO_CONTENT)
}
