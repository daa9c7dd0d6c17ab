//! Photos as the artist sees them.

use chrono::{DateTime, Utc};
use shared_types::{
    page::{
        artist::{EndPhotos, PhotoView},
        form::Filled,
    },
    photos::PHOTOS_MAX,
};

use super::wall::Wall;
use crate::record::photos::Photo;

/// Of the words by which a client agrees that a photo is kept with the visit (`artist.photos.consent`): changes with them.
pub const CONSENT_VERSION: &str = "2026-11";

/// Photos, in the order in which they came.
pub fn views(photos: &[Photo], wall: &Wall<'_>, now: DateTime<Utc>) -> Vec<PhotoView> {
    let view = |photo: &Photo| PhotoView {
        id: photo.id,
        at: wall.moment(photo.received_at, now),
        width: photo.width,
        height: photo.height,
    };
    photos.iter().map(view).collect()
}

/// Those that were taken at the end of a visit.
pub fn of_visit(photos: &[Photo], wall: &Wall<'_>, now: DateTime<Utc>) -> EndPhotos {
    EndPhotos {
        photos: views(photos, wall, now),
        more: photos.len() < PHOTOS_MAX as usize,
        consent_version: CONSENT_VERSION.to_owned(),
        form: Filled::default(),
    }
}
