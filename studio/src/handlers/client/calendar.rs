//! The visit's dates for the client's own calendar.

use axum::{
    extract::State,
    http::{HeaderValue, header},
    response::{IntoResponse, Redirect, Response},
};

use super::Holder;
use crate::{error::Refusal, links::address, pages, state::Shared};

const KIND: HeaderValue = HeaderValue::from_static("text/calendar; charset=utf-8; method=PUBLISH");
const DISPOSITION: HeaderValue = HeaderValue::from_static("inline; filename=\"visit.ics\"");

/// `GET /MY/{secret}/calendar`: what the page's link leads to. A phone that is sent on to a file takes it as a file;
/// one that is given its address outright may want to subscribe to it.
pub async fn way(holder: Holder) -> Redirect {
    Redirect::to(&format!("{}/calendar.ics", address::path(&holder.secret)))
}

/// `GET /MY/{secret}/calendar.ics`
pub async fn file(State(studio): State<Shared>, holder: Holder) -> Result<Response, Refusal> {
    let source = pages::client::read(&studio, &holder)?;
    let file = pages::client::with_calendar(&studio, &source, &holder, |calendar| calendar.file())
        .ok_or(Refusal::NotFound)?;
    let head = [
        (header::CONTENT_TYPE, KIND),
        (header::CONTENT_DISPOSITION, DISPOSITION),
    ];
    Ok((head, file).into_response())
}
