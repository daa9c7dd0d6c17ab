//! The client's page.

use axum::{
    extract::{Path, State},
    response::{Html, IntoResponse, Redirect, Response},
};
use shared_types::page::form::Filled;

use super::Holder;
use crate::{
    error::Refusal,
    links::{address, secret::Secret},
    pages,
    state::Shared,
};

/// `GET /MY/{secret}`. Looking changes nothing: messengers and scanners look too.
pub async fn show(State(studio): State<Shared>, holder: Holder) -> Result<Response, Refusal> {
    if !holder.as_given_out {
        return Ok(Redirect::permanent(&address::path(&holder.secret)).into_response());
    }
    Ok(with_form(&studio, &holder, Filled::default())?.into_response())
}

/// The page with a form as it came back.
pub fn with_form(studio: &Shared, holder: &Holder, form: Filled) -> Result<Html<String>, Refusal> {
    let source = pages::client::read(studio, &holder.link)?;
    let page = pages::client::page(studio, source, &holder.secret, form, holder.now.0);
    pages::client(studio, page)
}

/// `GET /my/{secret}`: for whoever types the link by hand. The page has one address, which the phone keeps it under.
pub async fn by_hand(Path(secret): Path<String>) -> Result<Redirect, Refusal> {
    let secret = Secret::read(&secret).ok_or(Refusal::LinkUnknown)?;
    Ok(Redirect::permanent(&address::path(&secret)))
}
