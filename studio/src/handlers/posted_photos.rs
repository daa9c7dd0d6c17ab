//! A form that may bring photos, as a browser sends it without JavaScript (RFC 7578, `multipart/form-data`). A picture that
//! cannot be taken never keeps the rest of the form from being taken.

use axum::{
    extract::{
        DefaultBodyLimit, FromRequest, Multipart, Request,
        multipart::{Field, MultipartError},
    },
    http::header,
};
use shared_types::{
    page::form::Filled,
    photos::{BYTES_MAX, PHOTOS_MAX},
    words::Words,
};

use super::posted::{LARGEST_BODY, Posted};
use crate::{
    error::{Refusal, photo},
    photos::{Kept, PhotoFault},
    state::Shared,
};

/// Bytes that are read of such a form altogether. Far more than four photos may have, so that what is too large can be named
/// and the rest taken: what comes behind a photo, the ticks above all, arrives only when the photo was read to its end. No
/// more than one photo of it is ever held in memory.
const LARGEST_FORM: usize = 1024 * 1024 * 1024;

/// A form's fields, and the photos that came with it.
pub struct PostedWithPhotos {
    pub form: Filled,
    pub photos: Vec<Offered>,
}

/// A photo in a form.
#[derive(Debug)]
pub struct Offered {
    /// What the file is called where it comes from; only ever shown to whoever sent it.
    pub name: String,
    /// Bytes as they came in.
    pub sent: u32,
    pub photo: Result<Kept, NotKept>,
}

/// Why a photo of a form was not kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotKept {
    Fault(PhotoFault),
    TooMany,
    /// Without the tick that lets the studio keep photos.
    NotAgreed,
    /// It could not be put on disk. The cause is in the log.
    Broken,
}

impl NotKept {
    /// What to say of it.
    pub fn sentence(self, words: &Words) -> String {
        let key = match self {
            NotKept::Fault(fault) => return photo(words, fault),
            NotKept::TooMany => "notice.photo_too_many.sentence",
            NotKept::NotAgreed => "notice.photo_not_agreed.sentence",
            NotKept::Broken => "notice.broken.sentence",
        };
        words.fill(key, &[("max", &PHOTOS_MAX.to_string())])
    }
}

impl FromRequest<Shared> for PostedWithPhotos {
    type Rejection = Refusal;

    /// Reads a form of either kind.
    async fn from_request(mut request: Request, studio: &Shared) -> Result<Self, Refusal> {
        let kind = request.headers().get(header::CONTENT_TYPE);
        let kind = kind.and_then(|kind| kind.to_str().ok()).unwrap_or_default();
        if !kind.starts_with("multipart/form-data") {
            let Posted(form) = Posted::from_request(request, studio).await?;
            return Ok(Self {
                form,
                photos: Vec::new(),
            });
        }
        DefaultBodyLimit::max(LARGEST_FORM).apply(&mut request);
        let mut parts = Multipart::from_request(request, studio)
            .await
            .map_err(|e| Refusal::Malformed(e.body_text()))?;
        let place = studio.photos.form();
        let mut read = Self {
            form: Filled::default(),
            photos: Vec::new(),
        };
        let mut room = LARGEST_BODY;
        while let Some(mut field) = parts.next_field().await.map_err(broken)? {
            let Some(name) = field.name().map(str::to_owned) else {
                return Err(Refusal::Malformed("a part without a name".to_owned()));
            };
            match field.file_name().map(short) {
                None => {
                    let value = text(&mut field, &mut room).await?;
                    read.form.put(&name, value);
                }
                Some(file) => {
                    let no_place = if read.photos.len() >= PHOTOS_MAX as usize {
                        Some(NotKept::TooMany)
                    } else {
                        let is_full = place.is_none();
                        is_full.then_some(NotKept::Fault(PhotoFault::Busy))
                    };
                    let arrived = arrived(&mut field, no_place).await?;
                    // At most BYTES_MAX, so it fits.
                    let sent = arrived.as_ref().map_or(0, Vec::len) as u32;
                    let photo = match arrived {
                        // A browser sends an empty file where none was chosen.
                        Ok(bytes) if bytes.is_empty() => continue,
                        Err(why) => Err(why),
                        Ok(bytes) => {
                            let kept = studio.photos.bench.taken(bytes).await;
                            kept.map_err(NotKept::Fault)
                        }
                    };
                    read.photos.push(Offered {
                        name: file,
                        sent,
                        photo,
                    });
                }
            }
        }
        Ok(read)
    }
}

/// The field's text, out of so much room for all of them.
async fn text(field: &mut Field<'_>, room: &mut usize) -> Result<String, Refusal> {
    let mut bytes = Vec::new();
    while let Some(chunk) = field.chunk().await.map_err(broken)? {
        *room = room.checked_sub(chunk.len()).ok_or(Refusal::TooLarge)?;
        bytes.extend_from_slice(&chunk);
    }
    String::from_utf8(bytes).map_err(|_| Refusal::Malformed("a text that is not UTF-8".to_owned()))
}

/// The field's bytes. What there is no place for and what is too large is read to its end and not held.
async fn arrived(
    field: &mut Field<'_>,
    no_place: Option<NotKept>,
) -> Result<Result<Vec<u8>, NotKept>, Refusal> {
    let mut bytes = Vec::new();
    let mut why = None;
    while let Some(chunk) = field.chunk().await.map_err(broken)? {
        why = why.or(no_place);
        if (bytes.len() + chunk.len()) as u64 > BYTES_MAX {
            why = why.or(Some(NotKept::Fault(PhotoFault::TooHeavy)));
        }
        if why.is_some() {
            bytes = Vec::new();
        } else {
            bytes.extend_from_slice(&chunk);
        }
    }
    Ok(why.map_or(Ok(bytes), Err))
}

fn broken(error: MultipartError) -> Refusal {
    if error.status() == axum::http::StatusCode::PAYLOAD_TOO_LARGE {
        Refusal::Photo(PhotoFault::TooHeavy)
    } else {
        Refusal::Malformed(error.body_text())
    }
}

/// A file's name as it can be said in a sentence.
fn short(name: &str) -> String {
    let name = name.rsplit(['/', '\\']).next().unwrap_or_default();
    name.chars()
        .filter(|one| !one.is_control())
        .take(80)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_files_name_is_only_its_name() {
        assert_eq!(short("C:\\Pictures\\eye.jpg"), "eye.jpg");
        assert_eq!(short("../../etc/passwd"), "passwd");
        assert_eq!(short("a\u{7}\nb"), "ab");
        assert_eq!(short(&"x".repeat(300)).len(), 80);
    }
}
