//! What answers the artist.

pub mod batches;
pub mod begin;
pub mod case;
mod check;
pub mod desk;
pub mod inbox;
pub mod link;
pub mod live;
pub mod notices;
pub mod own_advice;
pub mod particulars;
pub mod patch_tests;
pub mod photos;
pub mod practice;
pub mod print;
pub mod put_off;
pub mod record_visit;
pub mod report;
pub mod sign_in;
pub mod today;
pub mod visit;
pub mod waits;
pub mod wish;

use axum::{
    extract::{FromRequestParts, Path},
    http::request::Parts,
};
use uuid::Uuid;

use crate::{error::Refusal, state::Shared};

/// The id in a request's address. What is no id at all is simply not there.
pub struct Id(pub Uuid);

impl FromRequestParts<Shared> for Id {
    type Rejection = Refusal;

    async fn from_request_parts(parts: &mut Parts, studio: &Shared) -> Result<Self, Refusal> {
        match Path::<Uuid>::from_request_parts(parts, studio).await {
            Ok(Path(id)) => Ok(Self(id)),
            Err(_) => Err(Refusal::NotFound),
        }
    }
}
