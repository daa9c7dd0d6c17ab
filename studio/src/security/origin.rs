//! Which requests that change something come from our own pages.
//!
//! `Sec-Fetch-Site` says it where the browser sends it (all current ones do). Where it is absent, `Origin` does; our
//! pages send `no-referrer`, with which browsers write `Origin: null` into a form's request, so that `null` says
//! nothing either way. Where nothing is said, what the form itself carries decides: the session's token, the link's
//! secret, the set-up code or the password.

use axum::http::{HeaderMap, header};

use crate::links::address::PublicUrl;

/// Whether the headers say that another site is behind this request.
pub fn is_foreign(headers: &HeaderMap, public: &PublicUrl) -> bool {
    let text = |name: &str| {
        headers
            .get(name)
            .map(|value| value.to_str().unwrap_or("unreadable"))
    };
    if let Some(site) = text("sec-fetch-site") {
        // `none` is the user's own doing: a bookmark, or sending a form again.
        return !matches!(site, "same-origin" | "none");
    }
    match text(header::ORIGIN.as_str()) {
        None | Some("null") => false,
        Some(origin) => {
            let authority = origin.split_once("://").map(|(_, authority)| authority);
            authority.is_none()
                || (authority != Some(public.authority())
                    && authority != text(header::HOST.as_str()))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn headers(pairs: &[(&'static str, &'static str)]) -> HeaderMap {
        pairs
            .iter()
            .map(|(name, value)| (name.parse().unwrap(), value.parse().unwrap()))
            .collect()
    }

    #[test]
    fn our_own_pages_and_no_others() {
        let public: PublicUrl = "https://studio.example".parse().unwrap();
        for (given, foreign) in [
            (headers(&[("sec-fetch-site", "same-origin")]), false),
            (headers(&[("sec-fetch-site", "none")]), false),
            (headers(&[("sec-fetch-site", "same-site")]), true),
            (
                headers(&[
                    ("sec-fetch-site", "cross-site"),
                    ("origin", "https://studio.example"),
                ]),
                true,
            ),
            (headers(&[("origin", "https://studio.example")]), false),
            (
                headers(&[
                    ("origin", "http://127.0.0.1:4180"),
                    ("host", "127.0.0.1:4180"),
                ]),
                false,
            ),
            (
                headers(&[
                    ("origin", "https://elsewhere.example"),
                    ("host", "studio.example"),
                ]),
                true,
            ),
            (headers(&[("origin", "null")]), false),
            (headers(&[]), false),
        ] {
            assert_eq!(is_foreign(&given, &public), foreign, "{given:?}");
        }
    }
}
