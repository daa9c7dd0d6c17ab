//! How the studio is told at once that something waits: setting it, and trying it.

mod form;

use std::time::Duration;

use axum::{
    extract::State,
    http::StatusCode,
    response::{Html, IntoResponse, Redirect, Response},
};
use shared_types::page::{artist::Screen, form::Filled};

use crate::{
    error::Refusal,
    handlers::posted::only,
    notices::settings::NoticeSettings,
    pages,
    record::{
        RecordError,
        notices::{attempts, enqueue_test, hurry},
        versions,
    },
    security::{
        random,
        session::{SignedForm, SignedIn},
    },
    state::{Shared, Studio},
};
use form::{FIELDS, filled, read};

/// How long whoever tries the ways waits to be told how it went.
const TRY_PATIENCE: Duration = Duration::from_secs(12);

/// `GET /studio/notices`
pub async fn show(State(studio): State<Shared>, signed: SignedIn) -> Result<Html<String>, Refusal> {
    let settings: NoticeSettings = studio.record.read(versions::current)?;
    let mut form = filled(&settings);
    form.put("secret", random::token()?);
    screen(&studio, &signed, form)
}

/// `POST /studio/notices`: a new version. What waits is tried again at once.
pub async fn send(
    State(studio): State<Shared>,
    SignedForm { signed, mut form }: SignedForm,
) -> Result<Response, Refusal> {
    only(&form, FIELDS)?;
    let before = studio.record.read(versions::current)?;
    match read(&studio, &form, before)? {
        Ok(settings) => {
            let (artist, now) = (signed.artist, signed.now);
            studio
                .record
                .write(move |record| {
                    versions::add(record, &settings, artist, now)?;
                    hurry(record, now)
                })
                .await?;
            Ok(Redirect::to("/studio/notices").into_response())
        }
        Err(faults) => {
            form.blame_all(faults);
            form.forget("password");
            let again = screen(&studio, &signed, form)?;
            Ok((StatusCode::UNPROCESSABLE_ENTITY, again).into_response())
        }
    }
}

/// `POST /studio/notices/test`: a notice that only tries the ways. Waits a moment, so that the screen can say how it went.
pub async fn test(
    State(studio): State<Shared>,
    SignedForm { signed, form }: SignedForm,
) -> Result<Redirect, Refusal> {
    only(&form, &[])?;
    let mut commits = studio.record.commits();
    let now = signed.now;
    let sent: Vec<_> = studio
        .record
        .write(move |record| enqueue_test(record, now).map_err(Refusal::from))
        .await?;
    let tried = async {
        while !studio
            .record
            .read(|record| attempts::all_tried(record, &sent))?
        {
            if commits.changed().await.is_err() {
                break;
            }
        }
        Ok::<(), RecordError>(())
    };
    // Where it takes longer it goes on, and the screen says that it waits.
    if let Ok(tried) = tokio::time::timeout(TRY_PATIENCE, tried).await {
        tried?;
    }
    Ok(Redirect::to("/studio/notices#ways"))
}

fn screen(studio: &Studio, signed: &SignedIn, form: Filled) -> Result<Html<String>, Refusal> {
    let particulars = pages::artist::particulars(studio)?;
    let wall = pages::artist::wall(studio, &particulars);
    let screen = pages::notices::screen(studio, &wall, form, signed.now)?;
    pages::artist::screen(studio, &particulars, signed, Screen::Notices(screen))
}
