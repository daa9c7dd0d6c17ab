//! One line for each request: method, the route's template, status and time. Never the address itself, which may hold
//! a link's secret, and nothing of what was sent.

use std::time::Instant;

use axum::{
    extract::{MatchedPath, Request},
    middleware::Next,
    response::Response,
};
use chrono::Utc;
use tracing_subscriber::{
    Layer,
    filter::{LevelFilter, Targets},
    layer::SubscriberExt,
    util::SubscriberInitExt,
};

use crate::state::Now;

/// How much of our own is said: `error`, `warn`, `info`, `debug` or `trace`.
pub const LEVEL_VARIABLE: &str = "STUDIO_LOG";

/// Sets up the log on standard error. Libraries say warnings and no more, whatever is asked: at their most talkative
/// they write out whole pages, with the secrets in them.
pub fn start() {
    let asked = std::env::var(LEVEL_VARIABLE)
        .ok()
        .and_then(|level| level.parse().ok());
    let level = asked.unwrap_or(LevelFilter::INFO);
    let ours = Targets::new()
        .with_default(LevelFilter::WARN.min(level))
        .with_target(env!("CARGO_CRATE_NAME"), level);
    let lines = tracing_subscriber::fmt::layer()
        .with_writer(std::io::stderr)
        .with_ansi(false)
        .with_target(false);
    // A second start in one process (tests) keeps the first.
    let _ = tracing_subscriber::registry()
        .with(lines.with_filter(ours))
        .try_init();
}

/// Middleware: notes the instant of the request, and writes its line when it is answered.
pub async fn each_request(mut request: Request, next: Next) -> Response {
    request.extensions_mut().insert(Now(Utc::now()));
    let began = Instant::now();
    let method = request.method().clone();
    let route = request.extensions().get::<MatchedPath>().cloned();
    let response = next.run(request).await;
    let route = route.as_ref().map_or("(no route)", MatchedPath::as_str);
    let ms = began.elapsed().as_secs_f64() * 1000.0;
    let status = response.status().as_u16();
    // Assets are many and say little.
    if route.starts_with("/pkg/") || route == "/healthz" {
        tracing::debug!(%method, route, status, ms = format_args!("{ms:.1}"), "answered");
    } else {
        tracing::info!(%method, route, status, ms = format_args!("{ms:.1}"), "answered");
    }
    response
}
