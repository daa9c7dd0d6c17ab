//! A photo of a report, by a request of its own that can go on where it stopped: the report never waits for it.

mod form;
mod piece;

use std::sync::Arc;

use axum::{
    Json,
    extract::{Path, State},
    http::{HeaderMap, HeaderValue, StatusCode, header},
    response::{IntoResponse, Response},
};
use shared_types::photos::{PHOTOS_MAX, PhotoReceipt};
use uuid::Uuid;

use super::Holder;
use crate::{
    error::Refusal,
    pages::{self, wall::Wall},
    photos::{
        Kept, PhotoFault, ToKeep, UPLOAD_COMPLETE, UPLOAD_OFFSET,
        arriving::{InHand, PieceFault, Which},
    },
    record::photos::{self, Photo, Taken, Whose},
    state::{Shared, Studio},
};
pub use form::OfForm;
use piece::Piece;

/// `/MY/{secret}/reports/{report}/photos/{photo}`
type Address = Path<(String, Uuid, Uuid)>;

/// `HEAD`: how much of the photo is here.
pub async fn offset(
    State(studio): State<Shared>,
    holder: Holder,
    Path((_, report, photo)): Address,
) -> Result<Response, Refusal> {
    if let Some(held) = held(&studio, &holder, report, photo)? {
        return Ok((StatusCode::NO_CONTENT, so_far(held.sent.into(), true)).into_response());
    }
    agreed(&studio, &holder, report)?;
    let which = Which {
        link: holder.link.id,
        report,
        photo,
    };
    let offset = studio.photos.arriving.offset(which).map_err(broken)?;
    Ok((StatusCode::NO_CONTENT, so_far(offset, false)).into_response())
}

/// `PATCH`: the next piece. 204 while there is more to come, 201 once the photo is kept, 200 when it was already.
pub async fn piece(
    State(studio): State<Shared>,
    holder: Holder,
    Path((_, report, photo)): Address,
    piece: Piece,
) -> Result<Response, Refusal> {
    if let Some(held) = held(&studio, &holder, report, photo)? {
        return receipt(&studio, &holder, StatusCode::OK, &held);
    }
    let consent = agreed(&studio, &holder, report)?;
    let which = Which {
        link: holder.link.id,
        report,
        photo,
    };
    // Somebody sends the same at the same moment, from another tab say: whoever is first goes on.
    let in_hand = studio.photos.arriving.take_in_hand(which);
    let in_hand = in_hand.ok_or(Refusal::Photo(PhotoFault::Busy))?;
    if piece.is_too_heavy() {
        in_hand.drop_it().await.map_err(broken)?;
        return Err(Refusal::Photo(PhotoFault::TooHeavy));
    }
    let offset = in_hand
        .append(piece.offset, piece.bytes)
        .await
        .map_err(|fault| match fault {
            PieceFault::WrongOffset(here) => Refusal::WrongOffset(here),
            PieceFault::TooHeavy => Refusal::Photo(PhotoFault::TooHeavy),
            PieceFault::TooMany => Refusal::TooManyPhotos,
            PieceFault::Io(error) => broken(error),
        })?;
    if !piece.is_last {
        return Ok((StatusCode::NO_CONTENT, so_far(offset, false)).into_response());
    }
    let kept = whole(&studio, &holder, &in_hand).await?;
    let to_keep = ToKeep {
        id: photo,
        visit: holder.visit,
        whose: Whose::Report {
            report,
            link: holder.link.id,
        },
        consent,
        agreed_to: String::new(),
        photo: kept,
        // At most BYTES_MAX, so it fits.
        sent: offset as u32,
    };
    let taken = studio
        .photos
        .keep(&studio.record, to_keep, holder.now.0)
        .await?;
    in_hand.drop_it().await.map_err(broken)?;
    let (status, id) = match taken {
        Taken::New => (StatusCode::CREATED, photo),
        Taken::Again(same) => (StatusCode::OK, same),
        Taken::IdInUse => return Err(Refusal::PhotoIdInUse),
        Taken::TooMany => return Err(Refusal::TooManyPhotos),
    };
    let held = held(&studio, &holder, report, id)?.ok_or(Refusal::NotFound)?;
    receipt(&studio, &holder, status, &held)
}

/// `GET`: the picture, for whoever sent it.
pub async fn show(
    State(studio): State<Shared>,
    holder: Holder,
    Path((_, report, photo)): Address,
) -> Result<Response, Refusal> {
    let held = held(&studio, &holder, report, photo)?.ok_or(Refusal::NotFound)?;
    picture(&studio, &held).await
}

/// A photo as an answer. Nothing but a picture may be made of it, whoever opens it and however.
pub async fn picture(studio: &Studio, photo: &Photo) -> Result<Response, Refusal> {
    let headers = [
        (header::CONTENT_TYPE, "image/jpeg"),
        (
            header::CONTENT_DISPOSITION,
            "inline; filename=\"photo.jpg\"",
        ),
        (
            header::CONTENT_SECURITY_POLICY,
            "default-src 'none'; sandbox",
        ),
    ];
    Ok((headers, studio.photos.read(photo).await?).into_response())
}

/// A photo of a report of the holder's visit, if it is kept.
fn held(
    studio: &Studio,
    holder: &Holder,
    report: Uuid,
    photo: Uuid,
) -> Result<Option<Photo>, Refusal> {
    let held = studio.record.look(|record| photos::by_id(record, photo))?;
    Ok(held.filter(|held| held.visit == holder.visit && held.report == Some(report)))
}

/// To which words about photos the sender of a report agreed, if some are to follow and there is room.
fn agreed(studio: &Studio, holder: &Holder, report: Uuid) -> Result<String, Refusal> {
    let visit = holder.visit;
    let (announced, here) = studio.record.read(|record| {
        let announced = photos::announced(record, visit, report)?;
        Ok((announced, photos::of_report(record, report)?.len()))
    })?;
    let announced = announced.ok_or(Refusal::NotFound)?;
    match announced.consent {
        Some(_) if here >= PHOTOS_MAX as usize => Err(Refusal::TooManyPhotos),
        Some(consent) if announced.count > 0 => Ok(consent),
        _ => Err(Refusal::PhotosNotAgreed),
    }
}

/// Everything has come: makes the photo anew. What is no fault of the picture leaves it here, to be tried again.
async fn whole(studio: &Studio, holder: &Holder, in_hand: &Arc<InHand>) -> Result<Kept, Refusal> {
    studio.limits.photo(holder.link.id)?;
    let bytes = in_hand.read().await.map_err(broken)?;
    let taken = studio.photos.bench.taken(bytes).await;
    if taken
        .as_ref()
        .is_err_and(|fault| *fault != PhotoFault::Busy)
    {
        in_hand.drop_it().await.map_err(broken)?;
    }
    Ok(taken?)
}

fn receipt(
    studio: &Studio,
    holder: &Holder,
    status: StatusCode,
    photo: &Photo,
) -> Result<Response, Refusal> {
    let particulars = pages::artist::particulars(studio)?;
    let wall = Wall {
        words: studio.words(&holder.language).1,
        zone: particulars.time_zone,
    };
    let receipt = PhotoReceipt {
        id: photo.id,
        received: wall.moment(photo.received_at, holder.now.0),
        width: photo.width,
        height: photo.height,
    };
    Ok((status, so_far(photo.sent.into(), true), Json(receipt)).into_response())
}

/// How much is here, and whether that is all.
fn so_far(offset: u64, complete: bool) -> HeaderMap {
    let complete = HeaderValue::from_static(if complete { "?1" } else { "?0" });
    HeaderMap::from_iter([
        (UPLOAD_OFFSET, HeaderValue::from(offset)),
        (UPLOAD_COMPLETE, complete),
    ])
}

fn broken(error: std::io::Error) -> Refusal {
    crate::photos::PhotosError::from(error).into()
}
