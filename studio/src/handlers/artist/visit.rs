//! A recorded visit: its screen, the code to scan, whether it was opened.

use axum::{
    Json,
    extract::{Path, State},
    http::{HeaderValue, header},
    response::{Html, IntoResponse, Response},
};
use chrono::{DateTime, Utc};
use shared_types::{page::artist::Screen, wire::LinkUse};
use uuid::Uuid;

use super::Id;
use crate::{
    advice::Advice,
    error::Refusal,
    pages,
    record::{
        advice, languages,
        links::{self, Link},
        visits,
    },
    security::session::SignedIn,
    state::{FIRST_LANGUAGE, Shared, Studio},
};

/// `GET /studio/visits/{id}`
pub async fn show(
    State(studio): State<Shared>,
    signed: SignedIn,
    Id(id): Id,
) -> Result<Html<String>, Refusal> {
    let particulars = pages::artist::particulars(&studio)?;
    let wall = pages::artist::wall(&studio, &particulars);
    let source = studio
        .record
        .read(|record| pages::visits::read(record, id, &particulars.language))?
        .ok_or(Refusal::NotFound)?;
    let view = pages::visits::view(&studio, &particulars, source, &wall, signed.now);
    pages::artist::screen(
        &studio,
        &particulars,
        &signed,
        Screen::Visit(Box::new(view)),
    )
}

/// `GET /studio/visits/{id}/regrowth/{area}/{day}.svg`
pub async fn still(
    State(studio): State<Shared>,
    _signed: SignedIn,
    Path((id, area, file)): Path<(Uuid, String, String)>,
) -> Result<Response, Refusal> {
    // The pictures are the same in every language.
    let given = studio.record.read(|record| {
        let known = visits::exists(record, id)?;
        known
            .then(|| advice::of_visit(record, id, FIRST_LANGUAGE))
            .transpose()
    })?;
    let given = given.ok_or(Refusal::NotFound)?;
    pages::still(&Advice::read(&given)?, &area, &file)
}

/// `GET /studio/visits/{id}/qr.svg`: the code of the link that lives; none is drawn of a link that opens nothing.
pub async fn code(
    State(studio): State<Shared>,
    signed: SignedIn,
    Id(id): Id,
) -> Result<Response, Refusal> {
    let link = studio
        .record
        .read(|record| links::newest_of(record, id))?
        .ok_or(Refusal::NotFound)?;
    picture(&studio, &link, signed.now)
}

/// The code of a link that lives.
pub(super) fn picture(
    studio: &Studio,
    link: &Link,
    now: DateTime<Utc>,
) -> Result<Response, Refusal> {
    let secret = studio
        .link_key
        .showable(link, now)
        .ok_or(Refusal::NotFound)?;
    let kind = [(
        header::CONTENT_TYPE,
        HeaderValue::from_static("image/svg+xml"),
    )];
    Ok((kind, studio.code(&secret)?).into_response())
}

/// `GET /studio/visits/{id}/opened`: asked while the code is on the screen.
pub async fn opened(
    State(studio): State<Shared>,
    signed: SignedIn,
    Id(id): Id,
) -> Result<Json<LinkUse>, Refusal> {
    let (link, shown) = studio.record.read(|record| {
        let link = links::newest_of(record, id)?;
        let shown = link.as_ref().map(|link| languages::shown(record, link.id));
        Ok((link, shown.transpose()?.unwrap_or_default()))
    })?;
    let link = link.ok_or(Refusal::NotFound)?;
    let particulars = pages::artist::particulars(&studio)?;
    let wall = pages::artist::wall(&studio, &particulars);
    Ok(Json(LinkUse {
        opened: link.opened.map(|at| wall.moment(at, signed.now)),
        read_in: pages::visits::read_in(&studio, &shown, wall.words),
    }))
}
