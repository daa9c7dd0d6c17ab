//! Why a request is refused. How that is said, and to whom, is in [`said`].

mod said;

use std::time::Duration;

use axum::{
    http::StatusCode,
    response::{IntoResponse, Response},
};
use shared_types::reaction::Fault;

use crate::{
    photos::{PhotoFault, PhotosError},
    record::RecordError,
    security::{limits::TooOften, passwords::PasswordError, random::RandomError},
};
pub use said::{Audience, photo, said, seconds, sentence, wait_in_words, words_for};

/// A refusal. `status`, `name` and the words below `notice.<name>` follow from the variant.
#[derive(Clone, Debug)]
pub enum Refusal {
    /// 404: there is no such page, visit or report.
    NotFound,
    /// 404: the page cannot be read in this language.
    LanguageUnknown,
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
    /// 409: the id of this wish belongs to another one.
    WishIdInUse,
    /// 413, 422 or 503: this picture cannot be taken, or not now.
    Photo(PhotoFault),
    /// 409: there are as many photos as there may be.
    TooManyPhotos,
    /// 409: its sender did not agree that photos are kept, or announced none.
    PhotosNotAgreed,
    /// 409: the id of this photo belongs to another one.
    PhotoIdInUse,
    /// 409: this piece of a photo does not fit behind what is here, which is so many bytes.
    WrongOffset(u64),
    /// 403: the client did not agree that this is passed on.
    NotAgreed,
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
            Refusal::NotFound | Refusal::LanguageUnknown | Refusal::LinkUnknown => {
                StatusCode::NOT_FOUND
            }
            Refusal::LinkGone => StatusCode::GONE,
            Refusal::NotSignedIn => StatusCode::UNAUTHORIZED,
            Refusal::ForeignSite | Refusal::StaleForm | Refusal::NotAgreed => StatusCode::FORBIDDEN,
            Refusal::WrongMethod => StatusCode::METHOD_NOT_ALLOWED,
            Refusal::TooSlow => StatusCode::REQUEST_TIMEOUT,
            Refusal::ReportIdInUse
            | Refusal::WishIdInUse
            | Refusal::TooManyPhotos
            | Refusal::PhotosNotAgreed
            | Refusal::PhotoIdInUse
            | Refusal::WrongOffset(_) => StatusCode::CONFLICT,
            Refusal::Photo(PhotoFault::TooHeavy) => StatusCode::PAYLOAD_TOO_LARGE,
            Refusal::Photo(PhotoFault::Busy) => StatusCode::SERVICE_UNAVAILABLE,
            Refusal::Photo(_) => StatusCode::UNPROCESSABLE_ENTITY,
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
            Refusal::LanguageUnknown => "language_unknown",
            Refusal::LinkUnknown => "link_unknown",
            Refusal::LinkGone => "link_gone",
            Refusal::NotSignedIn => "not_signed_in",
            Refusal::ForeignSite => "foreign_site",
            Refusal::StaleForm => "stale_form",
            Refusal::WrongMethod => "wrong_method",
            Refusal::TooSlow => "too_slow",
            Refusal::ReportIdInUse => "report_id_in_use",
            Refusal::WishIdInUse => "wish_id_in_use",
            Refusal::Photo(fault) => fault.name(),
            Refusal::TooManyPhotos => "photo_too_many",
            Refusal::PhotosNotAgreed => "photo_not_agreed",
            Refusal::PhotoIdInUse => "photo_id_in_use",
            Refusal::WrongOffset(_) => "photo_wrong_offset",
            Refusal::NotAgreed => "not_agreed",
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

impl From<PhotoFault> for Refusal {
    fn from(fault: PhotoFault) -> Self {
        Refusal::Photo(fault)
    }
}

impl From<PhotosError> for Refusal {
    fn from(error: PhotosError) -> Self {
        tracing::error!(%error, "a photo could not be kept or read");
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
