//! What every screen of the artist's carries.

use axum::response::Html;
use shared_types::{
    page::artist::{ArtistPage, Screen},
    wire::Waiting,
};

use super::wall::Wall;
use crate::{
    error::Refusal,
    record::{live, studio::Particulars},
    security::session::SignedIn,
    state::Studio,
};

/// The words that the screens need.
pub const WORDS: &[&str] = &[
    "artist.",
    "picture.",
    "treatment.",
    "finding.",
    "side.",
    "zone.",
    "mark.",
    "fault.",
    "urgency.answer.",
    "plural.",
    "list.",
];

/// The studio as it stands, for a screen of somebody who is signed in.
pub fn particulars(studio: &Studio) -> Result<Particulars, Refusal> {
    studio
        .record
        .read(crate::record::studio::current)?
        .ok_or(Refusal::NotSignedIn)
}

/// The clock on the studio's wall.
pub fn wall<'a>(studio: &'a Studio, particulars: &'a Particulars) -> Wall<'a> {
    Wall {
        words: studio.words(&particulars.language).1,
        zone: particulars.time_zone,
    }
}

/// A screen for the artist who is signed in.
pub fn screen(
    studio: &Studio,
    particulars: &Particulars,
    signed: &SignedIn,
    screen: Screen,
) -> Result<Html<String>, Refusal> {
    let (language, words) = studio.words(&particulars.language);
    let standing = studio.record.read(live::standing)?;
    let not_told = match screen {
        Screen::Today(_) | Screen::Reports(_) => super::notices::not_told(studio, words)?,
        _ => String::new(),
    };
    let page = ArtistPage {
        build: studio.site.build.clone(),
        now: signed.now,
        language: language.to_owned(),
        words: words.only(WORDS),
        studio_name: particulars.name.clone(),
        csrf: signed.csrf.clone(),
        waiting: super::live::waiting(&standing, words),
        not_told,
        screen,
    };
    super::artist(studio, page)
}

/// A screen for somebody who is not signed in.
pub fn screen_outside(
    studio: &Studio,
    particulars: Option<&Particulars>,
    now: chrono::DateTime<chrono::Utc>,
    screen: Screen,
) -> Result<Html<String>, Refusal> {
    let (language, words) = studio.own_words(particulars);
    let page = ArtistPage {
        build: studio.site.build.clone(),
        now,
        language: language.to_owned(),
        words: words.only(WORDS),
        studio_name: particulars.map_or_else(String::new, |studio| studio.name.clone()),
        csrf: String::new(),
        waiting: Waiting::default(),
        not_told: String::new(),
        screen,
    };
    super::artist(studio, page)
}
