//! The case of a report: on paper, and with the fields of the official form.

use axum::{
    Json,
    extract::{Query, State},
    http::{HeaderValue, header},
    response::{Html, IntoResponse, Response},
};
use serde::Deserialize;
use uuid::Uuid;

use super::Id;
use crate::{
    case::{Beside, Case, Reader, Sentences, form},
    error::Refusal,
    pages::{self, advised::Values, report},
    record::studio::Particulars,
    security::session::SignedIn,
    state::{Shared, Studio},
};

/// For whom.
#[derive(Deserialize)]
pub struct For {
    r#for: Option<String>,
}

impl For {
    fn reader(&self) -> Result<Reader, Refusal> {
        match &self.r#for {
            None => Ok(Reader::default()),
            Some(given) => given.parse().map_err(|()| Refusal::NotFound),
        }
    }
}

/// `GET /studio/reports/{id}/case`, `?for=supplier` without a name, where the client agreed to that.
pub async fn page(
    State(studio): State<Shared>,
    signed: SignedIn,
    Id(id): Id,
    Query(wish): Query<For>,
) -> Result<Html<String>, Refusal> {
    let reader = wish.reader()?;
    let particulars = pages::artist::particulars(&studio)?;
    let case = read(&studio, id, reader)?;
    let sentences = sentences(&studio, &particulars, &case);
    pages::case::page(&studio, &particulars, &case, &sentences, reader, signed.now)
}

/// `GET /studio/reports/{id}/case.json`
pub async fn data(
    State(studio): State<Shared>,
    _signed: SignedIn,
    Id(id): Id,
    Query(wish): Query<For>,
) -> Result<Response, Refusal> {
    let reader = wish.reader()?;
    let particulars = pages::artist::particulars(&studio)?;
    let case = read(&studio, id, reader)?;
    let sentences = sentences(&studio, &particulars, &case);
    let catalogue = &studio.content.catalogue;
    let treated = catalogue.areas(&case.visit.treatments);
    let region = case.noted.first().map_or("", |one| &one.region);
    let beside = Beside {
        studio: &particulars,
        treated: &treated,
        boxes: &report::boxes(&studio.content, region),
        sentences: &sentences,
    };
    let body = form(&case, &beside, reader);
    let name = HeaderValue::from_static("attachment; filename=\"case.json\"");
    Ok(([(header::CONTENT_DISPOSITION, name)], Json(body)).into_response())
}

fn read(studio: &Studio, id: Uuid, reader: Reader) -> Result<Case, Refusal> {
    let case = studio.record.read(|record| Case::read(record, id))?;
    let case = case.ok_or(Refusal::NotFound)?;
    if reader == Reader::Supplier && !case.may_be_passed_on() {
        return Err(Refusal::NotAgreed);
    }
    Ok(case)
}

/// The advice that was given, in the studio's language.
fn sentences(studio: &Studio, particulars: &Particulars, case: &Case) -> Sentences {
    let (language, words) = studio.words(&particulars.language);
    let values = Values::of(studio, particulars, language);
    Sentences::of(case, words, &values, &studio.content.version)
}
