//! The session's cookie.

use axum::http::{HeaderMap, HeaderValue, header};

use crate::record::sessions::ABSOLUTE;

/// How the session's cookie is named and set, which depends on whether the studio is reached by https.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SessionCookie {
    https: bool,
}

impl SessionCookie {
    pub fn new(https: bool) -> Self {
        Self { https }
    }

    /// `__Host-` makes the browser refuse the cookie unless it is Secure, for the whole host and for no other
    /// (RFC 6265bis section 4.1.3.2). Plain http, which only a demo or this machine itself may use, cannot have it.
    fn name(self) -> &'static str {
        if self.https {
            "__Host-betweentimes"
        } else {
            "betweentimes"
        }
    }

    /// The session's token in a request.
    pub fn read(self, headers: &HeaderMap) -> Option<&str> {
        headers
            .get_all(header::COOKIE)
            .iter()
            .filter_map(|line| line.to_str().ok())
            .flat_map(|line| line.split(';'))
            .filter_map(|pair| pair.trim().split_once('='))
            .find_map(|(name, value)| (name == self.name()).then_some(value))
    }

    /// The header that gives the browser a token, which is of base64url's alphabet.
    pub fn set(self, token: &str) -> Option<HeaderValue> {
        self.header(token, ABSOLUTE.num_seconds())
    }

    /// The header that takes it away.
    pub fn clear(self) -> Option<HeaderValue> {
        self.header("", 0)
    }

    fn header(self, value: &str, max_age: i64) -> Option<HeaderValue> {
        let secure = if self.https { "; Secure" } else { "" };
        let name = self.name();
        HeaderValue::try_from(format!(
            "{name}={value}; Path=/; Max-Age={max_age}; HttpOnly; SameSite=Lax{secure}"
        ))
        .ok()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_is_found_among_others() {
        let mut headers = HeaderMap::new();
        headers.insert(
            header::COOKIE,
            HeaderValue::from_static("other=1; betweentimes=abc; last=2"),
        );
        assert_eq!(SessionCookie::new(false).read(&headers), Some("abc"));
        assert_eq!(SessionCookie::new(true).read(&headers), None);
    }
}
