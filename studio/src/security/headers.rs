//! The headers that every answer carries, whoever wrote it.

use axum::{
    extract::{Request, State},
    http::{HeaderMap, HeaderName, HeaderValue, header},
    middleware::Next,
    response::Response,
};

use crate::{cache::Cache, state::Shared};

/// The headers, worked out once at the start.
pub struct SecurityHeaders(Vec<(HeaderName, HeaderValue)>);

/// `style_hash`: SHA-256, in base64, of the style block that the client's page carries inline.
pub fn headers(
    style_hash: &str,
    https: bool,
) -> Result<SecurityHeaders, header::InvalidHeaderValue> {
    let policy = [
        // What is not named below is not loaded.
        "default-src 'none'",
        // Our own scripts, and compiling our own wasm; nothing inline.
        "script-src 'self' 'wasm-unsafe-eval'",
        // Our own files, and the one block that saves the client's page a round trip.
        &format!("style-src 'self' 'sha256-{style_hash}'"),
        // The code to scan; a picture from the phone before it is sent; the icon, which stands in the page.
        "img-src 'self' blob: data:",
        "connect-src 'self'",
        "manifest-src 'self'",
        "worker-src 'self'",
        "form-action 'self'",
        "base-uri 'none'",
        "frame-ancestors 'none'",
    ]
    .join("; ");
    let mut all = vec![
        (
            header::CONTENT_SECURITY_POLICY,
            HeaderValue::try_from(policy)?,
        ),
        (
            header::X_CONTENT_TYPE_OPTIONS,
            HeaderValue::from_static("nosniff"),
        ),
        // The client's address is a secret: it must not reach another site in a Referer.
        (
            header::REFERRER_POLICY,
            HeaderValue::from_static("no-referrer"),
        ),
        (
            HeaderName::from_static("x-robots-tag"),
            HeaderValue::from_static("noindex, nofollow"),
        ),
        (
            HeaderName::from_static("cross-origin-opener-policy"),
            HeaderValue::from_static("same-origin"),
        ),
        (
            HeaderName::from_static("cross-origin-resource-policy"),
            HeaderValue::from_static("same-origin"),
        ),
        (
            HeaderName::from_static("permissions-policy"),
            HeaderValue::from_static(
                "camera=(), geolocation=(), microphone=(), payment=(), usb=()",
            ),
        ),
    ];
    if https {
        // A year, as OWASP ASVS 5.0 3.4.1 asks. Other hosts of the same domain are not ours to decide for.
        all.push((
            header::STRICT_TRANSPORT_SECURITY,
            HeaderValue::from_static("max-age=31536000"),
        ));
    }
    Ok(SecurityHeaders(all))
}

impl SecurityHeaders {
    fn write(&self, to: &mut HeaderMap) {
        for (name, value) in &self.0 {
            // What is no page says more narrowly what may be done with it.
            if name == header::CONTENT_SECURITY_POLICY && to.contains_key(name) {
                continue;
            }
            to.insert(name, value.clone());
        }
        to.entry(header::CACHE_CONTROL)
            .or_insert_with(|| Cache::Nobody.header());
    }
}

/// Middleware: writes them.
pub async fn on_every_answer(
    State(studio): State<Shared>,
    request: Request,
    next: Next,
) -> Response {
    let mut response = next.run(request).await;
    studio.security_headers.write(response.headers_mut());
    response
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn https_alone_asks_for_https() {
        let mut plain = HeaderMap::new();
        headers("abc=", false).unwrap().write(&mut plain);
        assert!(!plain.contains_key(header::STRICT_TRANSPORT_SECURITY));
        let mut secure = HeaderMap::new();
        headers("abc=", true).unwrap().write(&mut secure);
        assert!(secure.contains_key(header::STRICT_TRANSPORT_SECURITY));
    }

    #[test]
    fn an_answers_own_caching_stays() {
        let mut own = HeaderMap::from_iter([(header::CACHE_CONTROL, Cache::Forever.header())]);
        headers("abc=", false).unwrap().write(&mut own);
        assert_eq!(own[header::CACHE_CONTROL], Cache::Forever.header());
    }
}
