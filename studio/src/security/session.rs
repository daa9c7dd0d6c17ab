//! Who is signed in, as handlers ask for it. A handler that changes something asks for [`SignedForm`], which also
//! proves that the form came from the artist's own screen.

use axum::{
    extract::{FromRequest, FromRequestParts, Request},
    http::request::Parts,
};
use chrono::{DateTime, Utc};
use data_encoding::BASE64URL_NOPAD;
use sha2::{Digest, Sha256};
use shared_types::page::form::Filled;
use uuid::Uuid;

use crate::{
    error::Refusal,
    handlers::{
        posted::Posted,
        posted_photos::{Offered, PostedWithPhotos},
    },
    record::sessions,
    state::{Now, Shared},
};

/// The field in which a form sends back its session's token.
pub const FORM_TOKEN: &str = "csrf";

/// The artist who is signed in.
#[derive(Clone)]
pub struct SignedIn {
    pub artist: Uuid,
    pub artist_name: String,
    /// What every form of this session carries.
    pub csrf: String,
    pub token_hash: [u8; 32],
    pub now: DateTime<Utc>,
}

/// A form that the signed-in artist sent, without its token.
pub struct SignedForm {
    pub signed: SignedIn,
    pub form: Filled,
}

/// As a [`SignedForm`], with the photos that it may bring.
pub struct SignedPhotos {
    pub signed: SignedIn,
    pub form: Filled,
    pub photos: Vec<Offered>,
}

/// What the record keeps of a session's token.
pub fn hash(token: &str) -> [u8; 32] {
    Sha256::digest(token.as_bytes()).into()
}

/// The token for forms follows from the session's own and gives nothing of it away.
fn form_token(token: &str) -> String {
    BASE64URL_NOPAD.encode(
        &Sha256::new()
            .chain_update(b"form token")
            .chain_update(token.as_bytes())
            .finalize(),
    )
}

/// The session of a request, if one holds.
pub async fn of_request(parts: &Parts, studio: &Shared) -> Result<Option<SignedIn>, Refusal> {
    let Some(token) = studio.cookie.read(&parts.headers) else {
        return Ok(None);
    };
    let Now(now) = Now::of(parts);
    let token_hash = hash(token);
    let Some(session) = studio
        .record
        .read(|record| sessions::holding(record, &token_hash, now))?
    else {
        return Ok(None);
    };
    if session.is_due(now) {
        studio
            .record
            .write(move |record| sessions::note_use(record, &token_hash, now))
            .await?;
    }
    Ok(Some(SignedIn {
        artist: session.artist,
        artist_name: session.artist_name,
        csrf: form_token(token),
        token_hash,
        now,
    }))
}

impl FromRequestParts<Shared> for SignedIn {
    type Rejection = Refusal;

    /// For reading only: what changes something has to come as a [`SignedForm`].
    async fn from_request_parts(parts: &mut Parts, studio: &Shared) -> Result<Self, Refusal> {
        if !parts.method.is_safe() {
            return Err(Refusal::StaleForm);
        }
        of_request(parts, studio).await?.ok_or(Refusal::NotSignedIn)
    }
}

impl FromRequest<Shared> for SignedForm {
    type Rejection = Refusal;

    async fn from_request(request: Request, studio: &Shared) -> Result<Self, Refusal> {
        let (parts, body) = request.into_parts();
        let signed = of_request(&parts, studio)
            .await?
            .ok_or(Refusal::NotSignedIn)?;
        let Posted(form) = Posted::from_request(Request::from_parts(parts, body), studio).await?;
        let form = proven(&signed, form)?;
        Ok(Self { signed, form })
    }
}

impl FromRequest<Shared> for SignedPhotos {
    type Rejection = Refusal;

    async fn from_request(request: Request, studio: &Shared) -> Result<Self, Refusal> {
        let (parts, body) = request.into_parts();
        let signed = of_request(&parts, studio)
            .await?
            .ok_or(Refusal::NotSignedIn)?;
        let request = Request::from_parts(parts, body);
        let PostedWithPhotos { form, photos } =
            PostedWithPhotos::from_request(request, studio).await?;
        let form = proven(&signed, form)?;
        Ok(Self {
            signed,
            form,
            photos,
        })
    }
}

/// The form without its token, which must be this session's.
fn proven(signed: &SignedIn, mut form: Filled) -> Result<Filled, Refusal> {
    // Hashed before they are compared, so that the time it takes says nothing about the token.
    if hash(form.value(FORM_TOKEN)) != hash(&signed.csrf) {
        return Err(Refusal::StaleForm);
    }
    form.forget(FORM_TOKEN);
    Ok(form)
}
