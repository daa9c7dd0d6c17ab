//! The picture of regrowth on single days, for a page on which no script runs.

use axum::{
    extract::{Path, State},
    response::Response,
};

use super::Holder;
use crate::{error::Refusal, pages, state::Shared};

/// `GET /MY/{secret}/regrowth/{area}/{day}.svg`
pub async fn show(
    State(studio): State<Shared>,
    holder: Holder,
    Path((_, area, file)): Path<(String, String, String)>,
) -> Result<Response, Refusal> {
    let advice = pages::client::read(&studio, &holder)?.advice;
    pages::still(&advice, &area, &file)
}
