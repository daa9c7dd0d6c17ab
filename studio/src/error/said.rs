//! Refusals in words: to a browser as a page with a heading and a sentence, to code of ours as a problem document
//! (RFC 9457). The words are content, by the refusal's name.

use std::time::Duration;

use axum::{
    Json,
    extract::{Request, State},
    http::{HeaderMap, HeaderName, HeaderValue, header},
    middleware::Next,
    response::{Html, IntoResponse, Redirect, Response},
};
use shared_types::{
    page::artist::{Notice, Onward},
    photos::{BYTES_MAX, PHOTOS_MAX, PIXELS_MAX},
    reaction::{Fault, REACH_MAX, WORDS_MAX},
    wire::Problem,
    words::Words,
};

use super::Refusal;
use crate::{
    language::Wanted,
    pages::{self, Look},
    photos::{PhotoFault, UPLOAD_OFFSET},
    record::{artists, studio::Particulars},
    state::Shared,
};

/// After which somebody whose photo had no turn may try again.
const A_MOMENT: Duration = Duration::from_secs(5);

/// Who reads an answer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Audience {
    /// The client, in a browser.
    Client,
    /// The artist, in a browser.
    Artist,
    /// Code of ours that runs in a page.
    Code,
}

impl Audience {
    /// The languages in which a refusal is read. The artist's screens are in the studio's own, whoever looks at them.
    pub fn wanted(self, studio: &Shared, headers: &HeaderMap) -> Wanted {
        match self {
            Audience::Client | Audience::Code => studio.wanted(headers),
            Audience::Artist => Wanted::default(),
        }
    }
}

/// Middleware: gives every refusal its words, ours and those that axum made.
pub async fn said(
    State((studio, audience)): State<(Shared, Audience)>,
    request: Request,
    next: Next,
) -> Response {
    let wanted = audience.wanted(&studio, request.headers());
    let mut response = next.run(request).await;
    let refusal = match response.extensions_mut().remove::<Refusal>() {
        Some(refusal) => refusal,
        // A page or a problem that a handler wrote itself says already what to do.
        None if has_kind(response.headers(), "text/html")
            || has_kind(response.headers(), "json") =>
        {
            return response;
        }
        None => match Refusal::of_status(response.status()) {
            Some(refusal) => refusal,
            None => return response,
        },
    };
    let mut said = words_for(&studio, audience, &wanted, &refusal);
    said.headers_mut().extend(refusal.header());
    if let Some(allow) = response.headers_mut().remove(header::ALLOW) {
        said.headers_mut().insert(header::ALLOW, allow);
    }
    said
}

fn has_kind(headers: &HeaderMap, kind: &str) -> bool {
    headers
        .get(header::CONTENT_TYPE)
        .and_then(|value| value.to_str().ok())
        .is_some_and(|value| value.contains(kind))
}

/// What a refusal says to whoever reads it, in the language they would like.
pub fn words_for(
    studio: &Shared,
    audience: Audience,
    wanted: &Wanted,
    refusal: &Refusal,
) -> Response {
    // Whatever is wrong with the record must not keep this page from being shown.
    let particulars = studio
        .record
        .read(crate::record::studio::current)
        .ok()
        .flatten();
    let (language, words) = studio.words_wanted(wanted, particulars.as_ref());
    match (audience, refusal) {
        (Audience::Code, _) => problem(refusal, words),
        (_, Refusal::NotSignedIn) => {
            let set_up = studio.record.read(artists::any).unwrap_or(true);
            Redirect::to(if set_up {
                "/studio/sign-in"
            } else {
                "/studio/begin"
            })
            .into_response()
        }
        _ => {
            let notice = Notice {
                heading: refusal.heading(words),
                sentence: refusal.sentence(words),
                onward: onward(audience, refusal, particulars.as_ref(), words),
            };
            let look = match refusal {
                Refusal::LinkUnknown | Refusal::LinkGone => Look::Forgetting,
                _ => Look::Plain,
            };
            match pages::notice(studio, particulars.as_ref(), language, notice, look) {
                Ok(page) => (refusal.status(), page).into_response(),
                Err(_) => refusal.status().into_response(),
            }
        }
    }
}

/// Where to go from here: the artist to the first screen, the client to the studio.
fn onward(
    audience: Audience,
    refusal: &Refusal,
    studio: Option<&Particulars>,
    words: &Words,
) -> Vec<Onward> {
    match (audience, studio) {
        (Audience::Client, Some(studio)) => {
            // Whoever only guessed at a link learns nothing about the studio from it.
            let known = !matches!(refusal, Refusal::LinkUnknown | Refusal::NotFound);
            let ways = [("tel:", &studio.phone), ("mailto:", &studio.contact_email)];
            ways.into_iter()
                .filter(|(_, way)| known && !way.is_empty())
                .map(|(scheme, way)| Onward {
                    text: way.clone(),
                    address: format!("{scheme}{}", way.replace(' ', "")),
                })
                .collect()
        }
        (Audience::Client, None) => Vec::new(),
        _ => vec![Onward {
            text: words.say("artist.notice.back").to_owned(),
            address: "/studio".to_owned(),
        }],
    }
}

fn problem(refusal: &Refusal, words: &Words) -> Response {
    let status = refusal.status();
    let problem = Problem {
        kind: format!("/problems/{}", refusal.name()),
        title: refusal.heading(words),
        status: status.as_u16(),
        detail: refusal.sentence(words),
    };
    let kind = HeaderValue::from_static("application/problem+json");
    (status, [(header::CONTENT_TYPE, kind)], Json(problem)).into_response()
}

impl Refusal {
    /// A page that says itself what was refused and what to do.
    pub fn around(&self, page: Html<String>) -> Response {
        let header = HeaderMap::from_iter(self.header());
        (self.status(), header, page).into_response()
    }

    /// What code reads of it.
    fn header(&self) -> Option<(HeaderName, HeaderValue)> {
        Some(match self {
            Refusal::TooOften(wait) => (header::RETRY_AFTER, seconds(*wait).into()),
            Refusal::Photo(PhotoFault::Busy) => (header::RETRY_AFTER, seconds(A_MOMENT).into()),
            Refusal::WrongOffset(offset) => (UPLOAD_OFFSET, (*offset).into()),
            _ => return None,
        })
    }

    fn heading(&self, words: &Words) -> String {
        words
            .say(&format!("notice.{}.heading", self.name()))
            .to_owned()
    }

    /// What it says, and what to do.
    pub fn sentence(&self, words: &Words) -> String {
        let key = format!("notice.{}.sentence", self.name());
        match self {
            Refusal::Malformed(detail) => words.fill(&key, &[("detail", detail)]),
            Refusal::NotTaken(fault) => sentence(words, fault),
            Refusal::Photo(fault) => photo(words, *fault),
            Refusal::TooManyPhotos => words.fill(&key, &[("max", &PHOTOS_MAX.to_string())]),
            Refusal::WrongOffset(offset) => words.fill(&key, &[("offset", &offset.to_string())]),
            Refusal::TooOften(wait) => words.fill(&key, &[("wait", &wait_in_words(words, *wait))]),
            _ => words.say(&key).to_owned(),
        }
    }
}

/// The sentence for what is wrong with a field of a report.
pub fn sentence(words: &Words, fault: &Fault) -> String {
    let longest = if fault.field == "reach" {
        REACH_MAX
    } else {
        WORDS_MAX
    };
    words.fill(fault.key, &[("max", &longest.to_string())])
}

/// The sentence for what is wrong with a picture.
pub fn photo(words: &Words, fault: PhotoFault) -> String {
    let max = match fault {
        PhotoFault::TooHeavy => BYTES_MAX / 1_000_000,
        _ => PIXELS_MAX / 1_000_000,
    };
    let key = format!("notice.{}.sentence", fault.name());
    words.fill(&key, &[("max", &max.to_string())])
}

/// How long to wait, in words.
pub fn wait_in_words(words: &Words, wait: Duration) -> String {
    words.count("notice.seconds", seconds(wait))
}

/// Whole seconds, rounded up: trying again that much later works.
pub fn seconds(wait: Duration) -> i64 {
    i64::try_from(wait.as_secs()).unwrap_or(i64::MAX - 1) + 1
}
