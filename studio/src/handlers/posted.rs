//! What was sent: a form's fields, or JSON.

use axum::{
    Form, Json,
    extract::{FromRequest, Request, rejection::FormRejection, rejection::JsonRejection},
};
use serde::de::DeserializeOwned;
use shared_types::page::form::Filled;

use crate::{error::Refusal, state::Shared};

/// Largest body, in bytes: a report at its longest, percent-encoded, with room to spare.
pub const LARGEST_BODY: usize = 64 * 1024;

/// A form's fields in the order sent; a field may come several times.
pub struct Posted(pub Filled);

impl FromRequest<Shared> for Posted {
    type Rejection = Refusal;

    async fn from_request(request: Request, studio: &Shared) -> Result<Self, Refusal> {
        let Form(pairs) = Form::<Vec<(String, String)>>::from_request(request, studio)
            .await
            .map_err(|e| match e {
                FormRejection::InvalidFormContentType(_) => Refusal::WrongKind,
                FormRejection::BytesRejection(e) => of_body(e.status()),
                other => Refusal::Malformed(other.body_text()),
            })?;
        let mut filled = Filled::default();
        for (name, value) in pairs {
            filled.put(&name, value);
        }
        Ok(Self(filled))
    }
}

/// Refuses fields that the form does not have.
pub fn only(form: &Filled, known: &[&str]) -> Result<(), Refusal> {
    match form.fields().find(|name| !known.contains(name)) {
        Some(name) => Err(Refusal::Malformed(format!(
            "unknown field `{name}`; allowed are {}",
            known.join(", ")
        ))),
        None => Ok(()),
    }
}

/// A value sent as JSON.
pub struct Sent<T>(pub T);

impl<T: DeserializeOwned> FromRequest<Shared> for Sent<T> {
    type Rejection = Refusal;

    async fn from_request(request: Request, studio: &Shared) -> Result<Self, Refusal> {
        match Json::<T>::from_request(request, studio).await {
            Ok(Json(value)) => Ok(Self(value)),
            Err(JsonRejection::MissingJsonContentType(_)) => Err(Refusal::WrongKind),
            Err(JsonRejection::BytesRejection(e)) => Err(of_body(e.status())),
            // These name the field and what was expected; they never repeat a text that was sent.
            Err(JsonRejection::JsonDataError(e)) => Err(Refusal::Malformed(source_of(&e))),
            Err(JsonRejection::JsonSyntaxError(e)) => Err(Refusal::Malformed(source_of(&e))),
            Err(other) => Err(Refusal::Malformed(other.body_text())),
        }
    }
}

fn of_body(status: axum::http::StatusCode) -> Refusal {
    if status == axum::http::StatusCode::PAYLOAD_TOO_LARGE {
        Refusal::TooLarge
    } else {
        Refusal::Malformed("the body did not arrive whole".to_owned())
    }
}

/// The innermost cause: what serde says, without axum's words around it.
fn source_of(error: &dyn std::error::Error) -> String {
    let mut inner = error;
    while let Some(source) = inner.source() {
        inner = source;
    }
    inner.to_string()
}
