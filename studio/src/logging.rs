//! One line for each request: method, the route's template, status and time. Never the address itself, which may hold
//! a link's secret, and nothing of what was sent.

use std::time::Instant;

use axum::{
    extract::{MatchedPath, Request},
    middleware::Next,
    response::Response,
};
use chrono::Utc;
use tracing_subscriber::EnvFilter;

use crate::state::Now;

/// Sets up the log on standard error. `RUST_LOG` chooses; without it, our own lines from "info" on.
pub fn start() {
    let filter =
        EnvFilter::try_from_default_env().unwrap_or_else(|_| EnvFilter::new("warn,studio=info"));
    // A second start in one process (tests) keeps the first.
    let _ = tracing_subscriber::fmt()
        .with_env_filter(filter)
        .with_writer(std::io::stderr)
        .with_ansi(false)
        .with_target(false)
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
