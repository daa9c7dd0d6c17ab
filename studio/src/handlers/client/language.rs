//! Choosing the language of the page.

use axum::{
    extract::{Path, State},
    http::header,
    response::{IntoResponse, Redirect, Response},
};

use super::AnyHolder;
use crate::{error::Refusal, links::address, state::Shared};

/// `GET /MY/{secret}/in/{language}`: back to the page, which is in that language from now on, on this phone. The record
/// is not changed.
pub async fn choose(
    State(studio): State<Shared>,
    holder: AnyHolder,
    Path((_, language)): Path<(String, String)>,
) -> Result<Response, Refusal> {
    let (languages, secret, link, now) = match &holder {
        AnyHolder::Visit(one) => (&one.languages, &one.secret, &one.link, one.now),
        AnyHolder::PatchTest(one) => (&one.languages, &one.secret, &one.link, one.now),
    };
    if !languages.contains(&language) {
        return Err(Refusal::LanguageUnknown);
    }
    let path = address::path(secret);
    let lives_for = (link.expires_at - now.0).num_seconds();
    let cookie = studio.language_cookie.set(&language, &path, lives_for);
    let cookie = cookie.ok_or(Refusal::LanguageUnknown)?;
    Ok(([(header::SET_COOKIE, cookie)], Redirect::to(&path)).into_response())
}
