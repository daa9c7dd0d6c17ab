//! Photos, for the artist: looking at them, adding those of the end of a visit, taking one out again.

use axum::{
    extract::State,
    http::StatusCode,
    response::{IntoResponse, Redirect, Response},
};
use shared_types::page::{artist::Screen, form::Filled};
use uuid::Uuid;

use super::Id;
use crate::{
    error::Refusal,
    handlers::{
        client::photos::picture,
        posted::only,
        posted_photos::{NotKept, Offered},
    },
    pages::{self, photos::CONSENT_VERSION},
    photos::ToKeep,
    record::{
        photos::{self, Taken, Whose},
        visits,
    },
    security::session::{SignedForm, SignedIn, SignedPhotos},
    state::{Shared, Studio},
};

/// `GET /studio/photos/{id}`
pub async fn show(
    State(studio): State<Shared>,
    _signed: SignedIn,
    Id(id): Id,
) -> Result<Response, Refusal> {
    let photo = studio.record.look(|record| photos::by_id(record, id))?;
    picture(&studio, &photo.ok_or(Refusal::NotFound)?).await
}

/// `POST /studio/photos/{id}/take-out`: its file is erased; that it was there stays in the record.
pub async fn take_out(
    State(studio): State<Shared>,
    Id(id): Id,
    SignedForm { signed, form }: SignedForm,
) -> Result<Redirect, Refusal> {
    only(&form, &[])?;
    let photo = studio.record.look(|record| photos::by_id(record, id))?;
    let photo = photo.ok_or(Refusal::NotFound)?;
    studio
        .photos
        .take_out(&studio.record, id, signed.artist, signed.now)
        .await?;
    Ok(Redirect::to(&match photo.report {
        Some(report) => format!("/studio/reports/{report}"),
        None => format!("/studio/visits/{}", photo.visit),
    }))
}

/// `POST /studio/visits/{id}/photos`: those that were taken at the end of the visit. What could not be kept is said on the
/// visit's screen; the others are kept.
pub async fn add(
    State(studio): State<Shared>,
    Id(visit): Id,
    SignedPhotos {
        signed,
        form,
        photos: offered,
    }: SignedPhotos,
) -> Result<Response, Refusal> {
    only(&form, &["consent", "photos"])?;
    let particulars = pages::artist::particulars(&studio)?;
    let (_, words) = studio.own_words(Some(&particulars));
    let found = studio.record.read(|record| visits::by_id(record, visit))?;
    let (_, client) = found.ok_or(Refusal::NotFound)?;
    let name = [("name", client.first_name.as_str())];

    let mut faults = Filled::default();
    if !form.has("consent", CONSENT_VERSION) {
        faults.blame(
            "consent",
            words.fill("artist.photos.consent_missing", &name),
        );
    } else if offered.is_empty() {
        faults.blame("photos", words.say("artist.photos.none_chosen"));
    }
    if !faults.is_faulty() {
        let agreed_to = words.fill("artist.photos.consent", &name);
        let not_kept = keep(&studio, &signed, visit, &agreed_to, offered).await?;
        let said: Vec<String> = not_kept
            .iter()
            .map(|(name, why)| {
                let values = [("name", name.as_str()), ("why", &why.sentence(words))];
                words.fill("artist.photos.not_kept", &values)
            })
            .collect();
        if !said.is_empty() {
            faults.blame("photos", said.join(" "));
        }
    }
    if !faults.is_faulty() {
        return Ok(Redirect::to(&format!("/studio/visits/{visit}#photos")).into_response());
    }
    let wall = pages::artist::wall(&studio, &particulars);
    let source = studio
        .record
        .read(|record| pages::visits::read(record, visit, &particulars.language))?
        .ok_or(Refusal::NotFound)?;
    let mut view = pages::visits::view(&studio, &particulars, source, &wall, signed.now);
    for value in form.all("consent") {
        faults.put("consent", value);
    }
    view.photos.form = faults;
    let screen = Screen::Visit(Box::new(view));
    let page = pages::artist::screen(&studio, &particulars, &signed, screen)?;
    Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response())
}

/// Gives the names of those that were not kept, and why.
async fn keep(
    studio: &Studio,
    signed: &SignedIn,
    visit: Uuid,
    agreed_to: &str,
    offered: Vec<Offered>,
) -> Result<Vec<(String, NotKept)>, Refusal> {
    let mut not_kept = Vec::new();
    for Offered { name, sent, photo } in offered {
        let photo = match photo {
            Ok(photo) => photo,
            Err(why) => {
                not_kept.push((name, why));
                continue;
            }
        };
        let to_keep = ToKeep {
            id: Uuid::new_v4(),
            visit,
            whose: Whose::Visit {
                artist: signed.artist,
            },
            consent: CONSENT_VERSION.to_owned(),
            agreed_to: agreed_to.to_owned(),
            photo,
            sent,
        };
        let taken = studio
            .photos
            .keep(&studio.record, to_keep, signed.now)
            .await?;
        if taken == Taken::TooMany {
            not_kept.push((name, NotKept::TooMany));
        }
    }
    Ok(not_kept)
}
