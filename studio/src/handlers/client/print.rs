//! The page on paper.

use axum::{extract::State, response::Html};

use super::Holder;
use crate::{
    error::Refusal,
    links::address,
    pages::{
        self,
        print::{Paper, paper},
    },
    state::Shared,
};

/// `GET /MY/{secret}/print`
pub async fn sheet(State(studio): State<Shared>, holder: Holder) -> Result<Html<String>, Refusal> {
    let source = pages::client::read(&studio, &holder)?;
    let back = address::path(&holder.secret);
    paper(
        &studio,
        &source,
        Some(&holder.secret),
        Paper::Sheet,
        &back,
        holder.now,
    )
}
