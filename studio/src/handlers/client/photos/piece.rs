//! A piece of a photo as it is sent.

use axum::{
    body::Body,
    extract::{FromRequest, Request},
    http::{HeaderMap, HeaderName, header},
};
use http_body_util::BodyExt;
use shared_types::photos::{BYTES_MAX, PIECE_MAX};

use crate::{
    error::Refusal,
    photos::{PhotoFault, UPLOAD_COMPLETE, UPLOAD_LENGTH, UPLOAD_OFFSET},
    state::Shared,
};

/// A piece of a photo.
pub struct Piece {
    /// How many bytes its sender has sent before it.
    pub offset: u64,
    /// Whether the photo ends with it.
    pub is_last: bool,
    /// How many bytes the whole has, if its sender said so.
    length: Option<u64>,
    pub bytes: Vec<u8>,
}

impl Piece {
    /// Whether the whole has more bytes than a photo may have.
    pub fn is_too_heavy(&self) -> bool {
        self.length.is_some_and(|length| length > BYTES_MAX)
    }
}

/// What is read and thrown away of a body that is too large. Who sends is still sending, and would not hear a refusal before.
const READ_OUT: u64 = 128 * 1024 * 1024;

impl FromRequest<Shared> for Piece {
    type Rejection = Refusal;

    async fn from_request(request: Request, _: &Shared) -> Result<Self, Refusal> {
        let (parts, body) = request.into_parts();
        let bytes = read(body).await?;
        let headers = &parts.headers;
        let kind = headers.get(header::CONTENT_TYPE);
        if kind.is_none_or(|kind| kind != "application/partial-upload") {
            return Err(Refusal::WrongKind);
        }
        let offset = number(headers, &UPLOAD_OFFSET)?.ok_or_else(|| missing(&UPLOAD_OFFSET))?;
        let length = number(headers, &UPLOAD_LENGTH)?;
        let is_last = match text(headers, &UPLOAD_COMPLETE)? {
            // Booleans of RFC 9651 section 3.3.6.
            Some("?1") => true,
            Some("?0") => false,
            Some(other) => return Err(wrong(&UPLOAD_COMPLETE, other, "?0 or ?1")),
            None => return Err(missing(&UPLOAD_COMPLETE)),
        };
        let behind = offset.saturating_add(bytes.len() as u64);
        match length {
            Some(length) if behind > length || is_last && behind != length => {
                let said = length.to_string();
                Err(wrong(
                    &UPLOAD_LENGTH,
                    &said,
                    &format!("{behind}, where this piece ends"),
                ))
            }
            _ => Ok(Self {
                offset,
                is_last,
                length,
                bytes,
            }),
        }
    }
}

/// The body, of at most [`PIECE_MAX`] bytes.
async fn read(mut body: Body) -> Result<Vec<u8>, Refusal> {
    let mut bytes = Vec::new();
    let mut come = 0;
    while let Some(frame) = body.frame().await {
        let Ok(frame) = frame else {
            return Err(Refusal::Malformed(
                "the body did not arrive whole".to_owned(),
            ));
        };
        let Ok(data) = frame.into_data() else {
            continue;
        };
        come += data.len() as u64;
        if come > READ_OUT {
            break;
        }
        if come <= PIECE_MAX {
            bytes.extend_from_slice(&data);
        } else {
            bytes = Vec::new();
        }
    }
    match come {
        0..=PIECE_MAX => Ok(bytes),
        _ if come > BYTES_MAX => Err(Refusal::Photo(PhotoFault::TooHeavy)),
        _ => Err(Refusal::Malformed(format!(
            "a piece of a photo has at most {PIECE_MAX} bytes"
        ))),
    }
}

fn text<'a>(headers: &'a HeaderMap, name: &HeaderName) -> Result<Option<&'a str>, Refusal> {
    let value = headers.get(name).map(|value| value.to_str());
    value.transpose().map_err(|_| wrong(name, "…", "ASCII"))
}

fn number(headers: &HeaderMap, name: &HeaderName) -> Result<Option<u64>, Refusal> {
    let Some(said) = text(headers, name)? else {
        return Ok(None);
    };
    let number = said
        .parse()
        .map_err(|_| wrong(name, said, "a whole number of bytes"))?;
    Ok(Some(number))
}

fn missing(name: &HeaderName) -> Refusal {
    Refusal::Malformed(format!("the header `{name}` is missing"))
}

fn wrong(name: &HeaderName, said: &str, allowed: &str) -> Refusal {
    Refusal::Malformed(format!(
        "the header `{name}` is `{said}`; allowed is {allowed}"
    ))
}
