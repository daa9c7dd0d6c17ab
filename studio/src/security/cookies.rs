//! The cookies: the session's, and the one that remembers which language a page is read in.

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
        value(headers, self.name())
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

/// The cookie with the language in which one link's page is read. It lies at that page, and no other gets it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LanguageCookie {
    https: bool,
}

impl LanguageCookie {
    pub fn new(https: bool) -> Self {
        Self { https }
    }

    /// `__Secure-` makes the browser refuse the cookie unless it is Secure (RFC 6265bis section 4.1.3.1).
    fn name(self) -> &'static str {
        if self.https {
            "__Secure-betweentimes-language"
        } else {
            "betweentimes-language"
        }
    }

    /// The language that was chosen. Whoever sends it may have written anything.
    pub fn read(self, headers: &HeaderMap) -> Option<&str> {
        value(headers, self.name())
    }

    /// The header that has a language remembered for the page at `path`; `language` and `path` are of ours.
    pub fn set(self, language: &str, path: &str, for_seconds: i64) -> Option<HeaderValue> {
        let secure = if self.https { "; Secure" } else { "" };
        let name = self.name();
        HeaderValue::try_from(format!(
            "{name}={language}; Path={path}; Max-Age={for_seconds}; HttpOnly; SameSite=Lax{secure}"
        ))
        .ok()
    }
}

/// The value of a request's cookie.
fn value<'a>(headers: &'a HeaderMap, wanted: &str) -> Option<&'a str> {
    headers
        .get_all(header::COOKIE)
        .iter()
        .filter_map(|line| line.to_str().ok())
        .flat_map(|line| line.split(';'))
        .filter_map(|pair| pair.trim().split_once('='))
        .find_map(|(name, value)| (name == wanted).then_some(value))
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
