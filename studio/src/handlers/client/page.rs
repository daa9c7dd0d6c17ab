//! The client's page.

use axum::{
    extract::{Path, State},
    http::HeaderMap,
    response::{Html, IntoResponse, Redirect, Response},
};
use shared_types::page::{client::ClientPage, form::Filled};

use super::{AnyHolder, Holder, patch_test};
use crate::{
    compress,
    error::Refusal,
    links::{address, secret::Secret},
    pages::{self, client::Typed, kept::true_until, still},
    state::Shared,
};

/// `GET /MY/{secret}`. Looking changes nothing: messengers and scanners look too.
pub async fn show(
    State(studio): State<Shared>,
    holder: AnyHolder,
    asked: HeaderMap,
) -> Result<Response, Refusal> {
    let holder = match holder {
        AnyHolder::Visit(holder) => holder,
        AnyHolder::PatchTest(holder) => return patch_test::show(&studio, &holder),
    };
    if !holder.as_given_out {
        return Ok(Redirect::permanent(&address::path(&holder.secret)).into_response());
    }
    let (stamp, now) = (holder.stamp, holder.now.0);
    let which = (holder.link.id, holder.language.clone());
    let kept = match studio.kept_pages.find(&which, stamp, now) {
        Some(kept) => kept,
        None => {
            let page = fill_in(&studio, &holder, Filled::default(), Typed::default())?;
            let until = true_until(&page);
            let Html(html) = pages::client(&studio, page, &holder.languages)?;
            studio.kept_pages.keep(which, stamp, until, html, now)
        }
    };
    Ok(kept.answer(compress::accepted(&asked)))
}

/// The page with a form as it came back.
pub fn with_form(studio: &Shared, holder: &Holder, form: Filled) -> Result<Html<String>, Refusal> {
    let page = fill_in(studio, holder, form, Typed::default())?;
    pages::client(studio, page, &holder.languages)
}

/// The page with a date as it came back.
pub fn with_typed_date(
    studio: &Shared,
    holder: &Holder,
    typed: Typed,
) -> Result<Html<String>, Refusal> {
    let page = fill_in(studio, holder, Filled::default(), typed)?;
    pages::client(studio, page, &holder.languages)
}

fn fill_in(
    studio: &Shared,
    holder: &Holder,
    form: Filled,
    typed: Typed,
) -> Result<ClientPage, Refusal> {
    let source = pages::client::read(studio, holder)?;
    let still = still::still(studio, &source, holder, typed);
    let page = pages::client::page(studio, source, &holder.secret, form, holder.now.0);
    Ok(ClientPage { still, ..page })
}

/// `GET /my/{secret}`: for whoever types the link by hand. The page has one address, which the phone keeps it under.
pub async fn by_hand(Path(secret): Path<String>) -> Result<Redirect, Refusal> {
    let secret = Secret::read(&secret).ok_or(Refusal::LinkUnknown)?;
    Ok(Redirect::permanent(&address::path(&secret)))
}
