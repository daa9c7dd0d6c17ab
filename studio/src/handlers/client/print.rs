//! The page on paper.

use axum::{extract::State, response::Html};

use super::Holder;
use crate::{
    error::Refusal,
    links::address,
    pages::{
        self,
        print::{Around, Paper, paper},
    },
    state::Shared,
};

/// `GET /MY/{secret}/print`
pub async fn sheet(State(studio): State<Shared>, holder: Holder) -> Result<Html<String>, Refusal> {
    let source = pages::client::read(&studio, &holder)?;
    paper(
        &studio,
        &source,
        Some(&holder.secret),
        Paper::Sheet,
        // The client's page says in which language, as everywhere.
        Around {
            back: address::path(&holder.secret),
            languages: Vec::new(),
        },
        holder.now,
    )
}
