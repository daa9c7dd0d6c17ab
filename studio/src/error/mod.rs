//! Why a request is refused, and how that is said: to a browser as a page with a heading and a sentence, to the
//! phone's code as a problem document (RFC 9457). The words are content, by the refusal's name.

use std::time::Duration;

use axum::{
    Json,
    extract::{Request, State},
    http::{HeaderMap, HeaderValue, StatusCode, header},
    middleware::Next,
    response::{IntoResponse, Redirect, Response},
};
use shared_types::{
    page::artist::{Notice, Onward},
    reaction::{Fault, REACH_MAX, WORDS_MAX},
    wire::Problem,
    words::Words,
};

use crate::{
    pages::{self, Look},
    record::{RecordError, artists, studio::Particulars},
    security::{limits::TooOften, passwords::PasswordError, random::RandomError},
    state::Shared,
};

/// A refusal. `status`, `name` and the words below `notice.<name>` follow from the variant.
#[derive(Clone, Debug)]
pub enum Refusal {
    /// 404: there is no such page, visit or report.
    NotFound,
    /// 404: no link has this secret.
    LinkUnknown,
    /// 410: the link was revoked or has expired; the phone drops its copy.
    LinkGone,
    /// 303 to the sign-in page; 401 for the phone's code.
    NotSignedIn,
    /// 403: another site sent this.
    ForeignSite,
    /// 403: the form does not carry this session's token.
    StaleForm,
    /// 405.
    WrongMethod,
    /// 408: the request did not arrive in time.
    TooSlow,
    /// 409: the id of this report belongs to another one.
    ReportIdInUse,
    /// 413.
    TooLarge,
    /// 415: the body is of another kind.
    WrongKind,
    /// 400: it could not be read; says what is wrong, for whoever wrote the request.
    Malformed(String),
    /// 422: it was read, and this in it cannot be taken.
    NotTaken(Fault),
    /// 429.
    TooOften(Duration),
    /// 500: our fault. The cause is in the log.
    Broken,
}

impl Refusal {
    fn status(&self) -> StatusCode {
        match self {
            Refusal::NotFound | Refusal::LinkUnknown => StatusCode::NOT_FOUND,
            Refusal::LinkGone => StatusCode::GONE,
            Refusal::NotSignedIn => StatusCode::UNAUTHORIZED,
            Refusal::ForeignSite | Refusal::StaleForm => StatusCode::FORBIDDEN,
            Refusal::WrongMethod => StatusCode::METHOD_NOT_ALLOWED,
            Refusal::TooSlow => StatusCode::REQUEST_TIMEOUT,
            Refusal::ReportIdInUse => StatusCode::CONFLICT,
            Refusal::TooLarge => StatusCode::PAYLOAD_TOO_LARGE,
            Refusal::WrongKind => StatusCode::UNSUPPORTED_MEDIA_TYPE,
            Refusal::Malformed(_) => StatusCode::BAD_REQUEST,
            Refusal::NotTaken(_) => StatusCode::UNPROCESSABLE_ENTITY,
            Refusal::TooOften(_) => StatusCode::TOO_MANY_REQUESTS,
            Refusal::Broken => StatusCode::INTERNAL_SERVER_ERROR,
        }
    }

    /// Names the refusal in problem documents (`/problems/<name>`) and in the words (`notice.<name>`).
    fn name(&self) -> &'static str {
        match self {
            Refusal::NotFound => "not_found",
            Refusal::LinkUnknown => "link_unknown",
            Refusal::LinkGone => "link_gone",
            Refusal::NotSignedIn => "not_signed_in",
            Refusal::ForeignSite => "foreign_site",
            Refusal::StaleForm => "stale_form",
            Refusal::WrongMethod => "wrong_method",
            Refusal::TooSlow => "too_slow",
            Refusal::ReportIdInUse => "report_id_in_use",
            Refusal::TooLarge => "too_large",
            Refusal::WrongKind => "wrong_kind",
            Refusal::Malformed(_) => "malformed",
            Refusal::NotTaken(_) => "not_taken",
            Refusal::TooOften(_) => "too_often",
            Refusal::Broken => "broken",
        }
    }

    /// What a response says that axum itself refused with.
    fn of_status(status: StatusCode) -> Option<Self> {
        Some(match status {
            StatusCode::NOT_FOUND => Refusal::NotFound,
            StatusCode::METHOD_NOT_ALLOWED => Refusal::WrongMethod,
            StatusCode::REQUEST_TIMEOUT => Refusal::TooSlow,
            StatusCode::PAYLOAD_TOO_LARGE => Refusal::TooLarge,
            StatusCode::UNSUPPORTED_MEDIA_TYPE => Refusal::WrongKind,
            _ if status.is_client_error() => {
                Refusal::Malformed(status.canonical_reason().unwrap_or("").to_owned())
            }
            _ if status.is_server_error() => Refusal::Broken,
            _ => return None,
        })
    }

    fn heading(&self, words: &Words) -> String {
        words
            .say(&format!("notice.{}.heading", self.name()))
            .to_owned()
    }

    fn sentence(&self, words: &Words) -> String {
        let key = format!("notice.{}.sentence", self.name());
        match self {
            Refusal::Malformed(detail) => words.fill(&key, &[("detail", detail)]),
            Refusal::NotTaken(fault) => sentence(words, fault),
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

/// How long to wait, in words.
pub fn wait_in_words(words: &Words, wait: Duration) -> String {
    words.count("notice.seconds", seconds(wait))
}

/// Whole seconds, rounded up: trying again that much later works.
pub fn seconds(wait: Duration) -> i64 {
    i64::try_from(wait.as_secs()).unwrap_or(i64::MAX - 1) + 1
}

impl From<RecordError> for Refusal {
    fn from(error: RecordError) -> Self {
        tracing::error!(%error, "the record failed");
        Refusal::Broken
    }
}

impl From<rusqlite::Error> for Refusal {
    fn from(error: rusqlite::Error) -> Self {
        RecordError::from(error).into()
    }
}

impl From<PasswordError> for Refusal {
    fn from(error: PasswordError) -> Self {
        tracing::error!(%error, "a password could not be handled");
        Refusal::Broken
    }
}

impl From<RandomError> for Refusal {
    fn from(error: RandomError) -> Self {
        tracing::error!(%error, "no randomness");
        Refusal::Broken
    }
}

impl From<TooOften> for Refusal {
    fn from(too_often: TooOften) -> Self {
        Refusal::TooOften(too_often.wait)
    }
}

impl IntoResponse for Refusal {
    /// Status alone; what is said depends on who asked, which [`said`] knows.
    fn into_response(self) -> Response {
        let mut response = self.status().into_response();
        response.extensions_mut().insert(self);
        response
    }
}

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

/// Middleware: gives every refusal its words, ours and those that axum made.
pub async fn said(
    State((studio, audience)): State<(Shared, Audience)>,
    request: Request,
    next: Next,
) -> Response {
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
    let mut said = words_for(&studio, audience, &refusal);
    if let Refusal::TooOften(wait) = refusal {
        said.headers_mut()
            .insert(header::RETRY_AFTER, HeaderValue::from(seconds(wait)));
    }
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

/// What a refusal says to whoever reads it.
pub fn words_for(studio: &Shared, audience: Audience, refusal: &Refusal) -> Response {
    // Whatever is wrong with the record must not keep this page from being shown.
    let particulars = studio
        .record
        .read(crate::record::studio::current)
        .ok()
        .flatten();
    let (_, words) = studio.own_words(particulars.as_ref());
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
            match pages::notice(studio, particulars.as_ref(), notice, look) {
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
