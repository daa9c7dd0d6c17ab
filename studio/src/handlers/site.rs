//! What is no page: files, the service worker, robots.txt, the health check.

use axum::{
    Json,
    extract::{Path, State},
    http::{HeaderMap, header},
    response::{IntoResponse, Redirect, Response},
};

use crate::{cache::Cache, error::Refusal, state::Shared};

/// `GET /pkg/{file}`
pub async fn file(
    State(studio): State<Shared>,
    Path(name): Path<String>,
    asked: HeaderMap,
) -> Result<Response, Refusal> {
    studio.site.file(&name, &asked).ok_or(Refusal::NotFound)
}

/// `GET /MY/worker.js`: it lies below `/MY/` so that the clients' pages, and no others, are its scope.
pub async fn worker(State(studio): State<Shared>, asked: HeaderMap) -> Response {
    studio.site.worker(&asked)
}

/// `GET /robots.txt`: names the paths that are nobody's business, never an address.
pub async fn robots() -> impl IntoResponse {
    (
        [(header::CACHE_CONTROL, Cache::AnHour.header())],
        "User-agent: *\nDisallow: /MY/\nDisallow: /my/\nDisallow: /studio\n",
    )
}

/// `GET /openapi.json`: what the JSON API is.
pub async fn description(State(studio): State<Shared>) -> impl IntoResponse {
    let described = Json(crate::openapi::description(&studio.content));
    ([(header::CACHE_CONTROL, Cache::AnHour.header())], described)
}

/// `GET /healthz`: the record can be read.
pub async fn health(State(studio): State<Shared>) -> Result<&'static str, Refusal> {
    studio.record.look(crate::record::artists::any)?;
    Ok("ok\n")
}

/// `GET /`
pub async fn front() -> Redirect {
    Redirect::to("/studio")
}
