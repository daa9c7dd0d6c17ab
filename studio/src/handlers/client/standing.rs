//! Where the client's reports and wishes stand.

use axum::{Json, extract::State};
use shared_types::wire::Standing;

use super::Holder;
use crate::{
    error::Refusal,
    pages::{self, reports::cards, wishes},
    state::Shared,
};

/// `GET /MY/{secret}/standing`
pub async fn show(State(studio): State<Shared>, holder: Holder) -> Result<Json<Standing>, Refusal> {
    let source = pages::client::read(&studio, &holder)?;
    let wall = source.wall(&studio);
    let reports = cards(&studio, &source, &wall, holder.now.0);
    let wishes = wishes::cards(&source.wishes, &wall, holder.now.0);
    Ok(Json(Standing { reports, wishes }))
}
