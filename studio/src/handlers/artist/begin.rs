//! The first start: whoever holds the set-up code names the studio and makes the artist's account.

use axum::{
    extract::State,
    http::StatusCode,
    response::{IntoResponse, Redirect, Response},
};
use chrono::{DateTime, Utc};
use shared_types::{
    page::{
        artist::{Begin, Screen},
        form::Filled,
    },
    visit::limits,
    words::Words,
};
use uuid::Uuid;

use super::{check::Check, particulars, sign_in};
use crate::{
    error::Refusal,
    handlers::{
        posted::{Posted, only},
        visitor::Visitor,
    },
    pages,
    record::{RecordError, artists, studio as versions, studio::Particulars},
    security::{passwords, session::hash},
    state::{FIRST_LANGUAGE, Now, Shared, Studio},
};

const FIELDS: &[&str] = &[
    "code",
    "studio_name",
    "artist_name",
    "phone",
    "contact_email",
    "region",
    "time_zone",
    "language",
    "email",
    "password",
];

/// `GET /studio/begin`
pub async fn show(State(studio): State<Shared>, Now(now): Now) -> Result<Response, Refusal> {
    if studio.record.read(artists::any)? {
        return Ok(Redirect::to("/studio/sign-in").into_response());
    }
    let mut form = Filled::default();
    form.put("language", FIRST_LANGUAGE);
    Ok(screen(&studio, form, now)?.into_response())
}

/// `POST /studio/begin`
pub async fn send(
    State(studio): State<Shared>,
    Visitor(address): Visitor,
    Now(now): Now,
    Posted(mut form): Posted,
) -> Result<Response, Refusal> {
    only(&form, FIELDS)?;
    if studio.record.read(artists::any)? {
        return Ok(Redirect::to("/studio/sign-in").into_response());
    }
    studio.limits.set_up(address)?;
    let (_, words) = studio.words(FIRST_LANGUAGE);
    let wanted = match read(&studio, &form, words) {
        Ok(wanted) => wanted,
        Err(faults) => {
            form.blame_all(faults);
            form.forget("password");
            return Ok((
                StatusCode::UNPROCESSABLE_ENTITY,
                screen(&studio, form, now)?,
            )
                .into_response());
        }
    };
    let password_hash = studio.passwords.hash(wanted.password).await?;
    let artist = Uuid::new_v4();
    let made = studio
        .record
        .write(move |record| {
            // Two at once: the first one counts.
            if artists::any(record)? {
                return Ok::<_, RecordError>(false);
            }
            artists::add(
                record,
                artist,
                &wanted.artist_name,
                &wanted.email,
                &password_hash,
                now,
            )?;
            versions::add(record, &wanted.studio, artist, now)?;
            Ok(true)
        })
        .await?;
    if made {
        sign_in::begin_session(&studio, artist, None, now).await
    } else {
        Ok(Redirect::to("/studio/sign-in").into_response())
    }
}

struct Wanted {
    studio: Particulars,
    artist_name: String,
    email: String,
    password: String,
}

fn read(studio: &Studio, form: &Filled, words: &Words) -> Result<Wanted, Vec<(String, String)>> {
    let mut check = Check::new(form, words);
    let code = check.needed("code", limits::NAME);
    // Hashed before they are compared, so that the time it takes says nothing about the code.
    if studio
        .set_up_code
        .as_deref()
        .map(plain_code)
        .map(|code| hash(&code))
        != Some(hash(&plain_code(&code)))
    {
        check.fault("code", "fault.code", &[]);
    }
    let particulars = particulars::read(&mut check, studio, form, FIRST_LANGUAGE);
    let artist_name = check.needed("artist_name", limits::NAME);
    let email = check.needed("email", limits::REACH);
    check.email("email", &email);
    // A password is taken as it was typed, blanks and all.
    let password = form.value("password").to_owned();
    match password.chars().count() {
        n if n < passwords::SHORTEST => {
            check.fault(
                "password",
                "fault.password_short",
                &[("min", &passwords::SHORTEST.to_string())],
            );
        }
        n if n > passwords::LONGEST => {
            check.fault(
                "password",
                "fault.password_long",
                &[("max", &passwords::LONGEST.to_string())],
            );
        }
        _ => {}
    }
    let faults = check.faults();
    match particulars {
        Some(studio) if faults.is_empty() => Ok(Wanted {
            studio,
            artist_name,
            email,
            password,
        }),
        _ => Err(faults),
    }
}

/// A code as it is compared: without the dashes, in whichever case it was typed.
fn plain_code(code: &str) -> String {
    code.chars()
        .filter(char::is_ascii_alphanumeric)
        .collect::<String>()
        .to_ascii_uppercase()
}

fn screen(
    studio: &Studio,
    form: Filled,
    now: DateTime<Utc>,
) -> Result<axum::response::Html<String>, Refusal> {
    let (_, words) = studio.words(FIRST_LANGUAGE);
    pages::artist::screen_outside(
        studio,
        None,
        now,
        Screen::Begin(Begin {
            form,
            regions: particulars::regions(studio, words),
            time_zones: particulars::time_zones(),
            languages: particulars::languages(studio),
        }),
    )
}
