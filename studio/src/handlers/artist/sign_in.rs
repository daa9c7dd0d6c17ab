//! Signing in and out.

use axum::{
    extract::{FromRequestParts, Request, State},
    http::{HeaderMap, StatusCode, header},
    response::{Html, IntoResponse, Redirect, Response},
};
use chrono::{DateTime, Utc};
use shared_types::page::{
    artist::{Screen, SignIn},
    form::Filled,
};
use uuid::Uuid;

use crate::{
    error::{Refusal, seconds, wait_in_words},
    handlers::{
        posted::{Posted, only},
        visitor::Visitor,
    },
    pages,
    record::{artists, sessions},
    security::{
        passwords, random,
        session::{self, SignedForm},
    },
    state::{Now, Shared, Studio},
};

const FIELDS: &[&str] = &["email", "password"];

/// `GET /studio/sign-in`
pub async fn show(
    State(studio): State<Shared>,
    Now(now): Now,
    request: Request,
) -> Result<Response, Refusal> {
    let (mut parts, _) = request.into_parts();
    if session::SignedIn::from_request_parts(&mut parts, &studio)
        .await
        .is_ok()
    {
        return Ok(Redirect::to("/studio").into_response());
    }
    if !studio.record.read(artists::any)? {
        return Ok(Redirect::to("/studio/begin").into_response());
    }
    Ok(screen(&studio, Filled::default(), now)?.into_response())
}

/// `POST /studio/sign-in`
pub async fn send(
    State(studio): State<Shared>,
    Visitor(address): Visitor,
    Now(now): Now,
    headers: HeaderMap,
    Posted(mut form): Posted,
) -> Result<Response, Refusal> {
    only(&form, FIELDS)?;
    let email = form.value("email").trim().to_owned();
    // What nobody can have as a password is not hashed either.
    let password: String = form
        .value("password")
        .chars()
        .take(passwords::LONGEST + 1)
        .collect();
    form.forget("password");

    if let Err(too_often) = studio.limits.sign_in(&email, address) {
        let particulars = studio.record.read(crate::record::studio::current)?;
        let (_, words) = studio.own_words(particulars.as_ref());
        let wait = wait_in_words(words, too_often.wait);
        form.blame("", words.fill("fault.too_often", &[("wait", &wait)]));
        let again = [(header::RETRY_AFTER, seconds(too_often.wait).to_string())];
        return Ok((
            StatusCode::TOO_MANY_REQUESTS,
            again,
            screen(&studio, form, now)?,
        )
            .into_response());
    }
    let account = studio
        .record
        .read(|record| artists::by_email(record, &email))?;
    let (artist, kept) = account
        .map(|account| (account.id, account.password_hash))
        .unzip();
    match (studio.passwords.is_right(password, kept).await?, artist) {
        (true, Some(artist)) => {
            let before = studio.cookie.read(&headers).map(session::hash);
            begin_session(&studio, artist, before, now).await
        }
        _ => {
            let particulars = studio.record.read(crate::record::studio::current)?;
            let (_, words) = studio.own_words(particulars.as_ref());
            form.blame("", words.say("fault.sign_in"));
            Ok((
                StatusCode::UNPROCESSABLE_ENTITY,
                screen(&studio, form, now)?,
            )
                .into_response())
        }
    }
}

/// `POST /studio/sign-out`
pub async fn out(
    State(studio): State<Shared>,
    SignedForm { signed, .. }: SignedForm,
) -> Result<Response, Refusal> {
    studio
        .record
        .write(move |record| sessions::end(record, &signed.token_hash))
        .await?;
    let cookie = studio.cookie.clear().ok_or(Refusal::Broken)?;
    Ok((
        [(header::SET_COOKIE, cookie)],
        Redirect::to("/studio/sign-in"),
    )
        .into_response())
}

/// Begins a session under a new token, ends the one before, and leads to the first screen.
pub async fn begin_session(
    studio: &Studio,
    artist: Uuid,
    before: Option<[u8; 32]>,
    now: DateTime<Utc>,
) -> Result<Response, Refusal> {
    let token = random::token()?;
    let token_hash = session::hash(&token);
    studio
        .record
        .write(move |record| {
            if let Some(before) = before {
                sessions::end(record, &before)?;
            }
            sessions::begin(record, &token_hash, artist, now)
        })
        .await?;
    let cookie = studio.cookie.set(&token).ok_or(Refusal::Broken)?;
    Ok(([(header::SET_COOKIE, cookie)], Redirect::to("/studio")).into_response())
}

fn screen(studio: &Studio, form: Filled, now: DateTime<Utc>) -> Result<Html<String>, Refusal> {
    let particulars = studio.record.read(crate::record::studio::current)?;
    pages::artist::screen_outside(
        studio,
        particulars.as_ref(),
        now,
        Screen::SignIn(SignIn { form }),
    )
}
