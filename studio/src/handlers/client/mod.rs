//! What answers a client, who has a link and no account.

pub mod calendar;
pub mod follow_ups;
pub mod language;
pub mod occasion;
pub mod opened;
pub mod page;
pub mod patch_test;
pub mod photos;
pub mod print;
pub mod reports;
pub mod standing;
pub mod still;
pub mod trouble;
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
        links::{Link, Opens},
        stamp::{self, Stamp},
    },
    state::{FIRST_LANGUAGE, Now, Shared, Studio},
};
use uuid::Uuid;

/// The living link to a visit that a request's address holds.
pub struct Holder {
    pub link: Link,
    pub visit: Uuid,
    /// How far the record has come for its page.
    pub stamp: Stamp,
    pub secret: Secret,
    /// Whether the address was written as links are: in capitals.
    pub as_given_out: bool,
    pub now: Now,
    /// The languages that the page can be read in, by BCP 47 tag, the one its advice was first given in first.
    pub languages: Vec<String>,
    /// The one of them that its holder reads.
    pub language: String,
}

impl Holder {
    /// Of the languages that the advice was given in, those that the rest of the page has words for: a page is never
    /// mixed. What was first given stays when there is none.
    fn readable(studio: &Shared, mut given: Vec<String>) -> Vec<String> {
        let known = |tag: &String| studio.content.languages.contains_key(tag);
        if given.iter().any(known) {
            given.retain(known);
        } else {
            given.truncate(1);
        }
        given
    }
}

#[derive(Deserialize)]
struct InPath {
    secret: String,
}

/// The living link to a patch test that a request's address holds.
pub struct TestHolder {
    pub link: Link,
    pub test: Uuid,
    pub secret: Secret,
    pub as_given_out: bool,
    pub now: Now,
    /// As of a [`Holder`].
    pub languages: Vec<String>,
    pub language: String,
}

/// A living link, whichever page it opens.
pub enum AnyHolder {
    Visit(Holder),
    PatchTest(TestHolder),
}

impl FromRequestParts<Shared> for AnyHolder {
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
                .map(|found| (found, secret)),
            None => None,
        };
        match found {
            Some(((link, stamp, given_in), secret)) if link.lives(now.0) => {
                let as_given_out = given == secret.as_str();
                let languages = match link.opens {
                    Opens::Visit(_) => Holder::readable(studio, given_in),
                    // What it says is not kept: it can be read in every language.
                    Opens::PatchTest(_) => every_language(studio)?,
                };
                let offered = languages.iter().map(String::as_str);
                let language = studio.wanted(&parts.headers).among(offered.clone());
                let language = language.or(offered.clone().next());
                let language = language.unwrap_or(FIRST_LANGUAGE).to_owned();
                Ok(match link.opens {
                    Opens::Visit(visit) => Self::Visit(Holder {
                        link,
                        visit,
                        stamp,
                        secret,
                        as_given_out,
                        now,
                        languages,
                        language,
                    }),
                    Opens::PatchTest(test) => Self::PatchTest(TestHolder {
                        link,
                        test,
                        secret,
                        as_given_out,
                        now,
                        languages,
                        language,
                    }),
                })
            }
            Some(_) => Err(Refusal::LinkGone),
            None => {
                let Ok(Visitor(address)) = Visitor::from_request_parts(parts, studio).await;
                studio.limits.unknown_link(address)?;
                Err(Refusal::LinkUnknown)
            }
        }
    }
}

impl FromRequestParts<Shared> for Holder {
    type Rejection = Refusal;

    async fn from_request_parts(parts: &mut Parts, studio: &Shared) -> Result<Self, Refusal> {
        match AnyHolder::from_request_parts(parts, studio).await? {
            AnyHolder::Visit(holder) => Ok(holder),
            AnyHolder::PatchTest(_) => Err(Refusal::NotFound),
        }
    }
}

impl FromRequestParts<Shared> for TestHolder {
    type Rejection = Refusal;

    async fn from_request_parts(parts: &mut Parts, studio: &Shared) -> Result<Self, Refusal> {
        match AnyHolder::from_request_parts(parts, studio).await? {
            AnyHolder::PatchTest(holder) => Ok(holder),
            AnyHolder::Visit(_) => Err(Refusal::NotFound),
        }
    }
}

/// The languages of the content, the studio's own first.
fn every_language(studio: &Studio) -> Result<Vec<String>, Refusal> {
    let particulars = studio.record.look(crate::record::studio::current)?;
    let own = particulars.map(|studio| studio.language);
    let mut languages: Vec<String> = studio.content.languages.keys().cloned().collect();
    languages.sort_by_key(|tag| Some(tag) != own.as_ref());
    Ok(languages)
}
