//! How long an answer may be kept, by whom: a closed set, chosen by name.

use axum::http::HeaderValue;

/// A caching policy.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cache {
    /// Pages and everything else about a person: nobody keeps it. (The client's own phone keeps its page through the
    /// service worker, which is the client's to decide.) This is what an answer gets that names no policy.
    Nobody,
    /// A file whose name carries the digest of its content: it never changes.
    Forever,
    /// May be kept, but must be asked for again each time: the service worker's script.
    AskAgain,
    /// May be kept for an hour: robots.txt.
    AnHour,
}

impl Cache {
    pub fn header(self) -> HeaderValue {
        HeaderValue::from_static(match self {
            Cache::Nobody => "private, no-store",
            Cache::Forever => "public, max-age=31536000, immutable",
            Cache::AskAgain => "no-cache",
            Cache::AnHour => "public, max-age=3600",
        })
    }
}
