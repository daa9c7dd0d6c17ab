//! What answers a client, who has a link and no account.

pub mod calendar;
pub mod occasion;
pub mod opened;
pub mod page;
pub mod print;
pub mod reports;
pub mod standing;
pub mod still;
pub mod wishes;

use axum::{
    extract::{FromRequestParts, Path},
    http::request::Parts,
};
use serde::Deserialize;

use super::visitor::Visitor;
use crate::{
    error::Refusal,
    links::secret::Secret,
    record::{
        links::Link,
        stamp::{self, Stamp},
    },
    state::{Now, Shared},
};

/// The living link that a request's address holds.
pub struct Holder {
    pub link: Link,
    /// How far the record has come for its page.
    pub stamp: Stamp,
    pub secret: Secret,
    /// Whether the address was written as links are: in capitals.
    pub as_given_out: bool,
    pub now: Now,
}

#[derive(Deserialize)]
struct InPath {
    secret: String,
}

impl FromRequestParts<Shared> for Holder {
    type Rejection = Refusal;

    async fn from_request_parts(parts: &mut Parts, studio: &Shared) -> Result<Self, Refusal> {
        let now = Now::of(parts);
        let Path(InPath { secret: given }) = Path::from_request_parts(parts, studio)
            .await
            .map_err(|_| Refusal::LinkUnknown)?;
        let found = match Secret::read(&given) {
            Some(secret) => studio
                .record
                .look(|record| stamp::of_link(record, &secret.hash()))?
                .map(|(link, stamp)| (link, stamp, secret)),
            None => None,
        };
        match found {
            Some((link, stamp, secret)) if link.lives(now.0) => Ok(Self {
                link,
                stamp,
                as_given_out: given == secret.as_str(),
                secret,
                now,
            }),
            Some(_) => Err(Refusal::LinkGone),
            None => {
                let Ok(Visitor(address)) = Visitor::from_request_parts(parts, studio).await;
                studio.limits.unknown_link(address)?;
                Err(Refusal::LinkUnknown)
            }
        }
    }
}
