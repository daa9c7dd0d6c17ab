//! Patch tests: the list of them; one, to be read; withdrawing it, and its link.

pub mod begin;

use axum::{
    extract::State,
    http::StatusCode,
    response::{Html, IntoResponse, Redirect, Response},
};
use shared_types::{
    page::{artist::Screen, form::Filled, patch_tests::PatchTests},
    patch_test::Outcome,
    visit::limits,
};
use uuid::Uuid;

use super::{Id, check::Check, visit::picture};
use crate::{
    error::Refusal,
    handlers::posted::only,
    links::give,
    pages,
    record::{
        RecordError, clients,
        clients::Client,
        links::{self, Link, Opens},
        patch_tests::{self, Held, events, list},
    },
    security::session::{SignedForm, SignedIn},
    state::{Shared, Studio},
};

/// Far more than a studio leaves waiting; the rest come up as these are read.
const WAITING: u32 = 500;
const DONE: u32 = 100;

/// `GET /studio/patch-tests`
pub async fn list(State(studio): State<Shared>, signed: SignedIn) -> Result<Html<String>, Refusal> {
    let particulars = pages::artist::particulars(&studio)?;
    let wall = pages::artist::wall(&studio, &particulars);
    let (waiting, done) = studio
        .record
        .read(|record| Ok((list::waiting(record, WAITING)?, list::done(record, DONE)?)))?;
    let screen = Screen::PatchTests(PatchTests {
        waiting: pages::patch_tests::by_urgency(waiting, &wall, signed.now),
        done: done
            .iter()
            .map(|line| pages::patch_tests::line(line, &wall, signed.now))
            .collect(),
    });
    pages::artist::screen(&studio, &particulars, &signed, screen)
}

/// `GET /studio/patch-tests/{id}`
pub async fn show(
    State(studio): State<Shared>,
    signed: SignedIn,
    Id(id): Id,
) -> Result<Html<String>, Refusal> {
    screen(&studio, &signed, id, Filled::default())
}

/// `GET /studio/patch-tests/{id}/qr.svg`
pub async fn code(
    State(studio): State<Shared>,
    signed: SignedIn,
    Id(id): Id,
) -> Result<Response, Refusal> {
    let link = studio
        .record
        .read(|record| links::newest_to(record, Opens::PatchTest(id)))?
        .ok_or(Refusal::NotFound)?;
    picture(&studio, &link, signed.now)
}

/// `POST /studio/patch-tests/{id}/read`
pub async fn read(
    State(studio): State<Shared>,
    Id(id): Id,
    SignedForm { signed, mut form }: SignedForm,
) -> Result<Response, Refusal> {
    only(&form, &["event_id", "outcome", "words"])?;
    let particulars = pages::artist::particulars(&studio)?;
    let mut check = Check::new(&form, studio.words(&particulars.language).1);
    let words = check.text("words", limits::NOTE);
    let outcome = form.value("outcome").parse::<Outcome>();
    if outcome.is_err() {
        check.fault("outcome", "fault.unknown_choice", &[]);
    }
    let faults = check.faults();
    let outcome = match outcome {
        Ok(outcome) if faults.is_empty() => outcome,
        _ => {
            form.blame_all(faults);
            let again = screen(&studio, &signed, id, form)?;
            return Ok((StatusCode::UNPROCESSABLE_ENTITY, again).into_response());
        }
    };
    let event = form
        .value("event_id")
        .parse()
        .unwrap_or_else(|_| Uuid::new_v4());
    write(&studio, id, move |record| {
        events::read(
            record,
            event,
            id,
            outcome,
            &words,
            signed.artist,
            signed.now,
        )
    })
    .await?;
    Ok(back_to(id).into_response())
}

/// `POST /studio/patch-tests/{id}/withdraw`
pub async fn withdraw(
    State(studio): State<Shared>,
    Id(id): Id,
    SignedForm { signed, mut form }: SignedForm,
) -> Result<Response, Refusal> {
    only(&form, &["why"])?;
    let particulars = pages::artist::particulars(&studio)?;
    let mut check = Check::new(&form, studio.words(&particulars.language).1);
    let why = check.needed("why", limits::NOTE);
    let faults = check.faults();
    if !faults.is_empty() {
        form.blame_all(faults);
        let again = screen(&studio, &signed, id, form)?;
        return Ok((StatusCode::UNPROCESSABLE_ENTITY, again).into_response());
    }
    write(&studio, id, move |record| {
        events::withdraw(record, id, &why, signed.artist, signed.now)
    })
    .await?;
    Ok(back_to(id).into_response())
}

/// `POST /studio/patch-tests/{id}/revoke`
pub async fn revoke(
    State(studio): State<Shared>,
    Id(id): Id,
    SignedForm { signed, form }: SignedForm,
) -> Result<Redirect, Refusal> {
    only(&form, &[])?;
    write(&studio, id, move |record| {
        links::revoke_all_of(record, Opens::PatchTest(id), signed.artist, signed.now)
    })
    .await?;
    Ok(back_to(id))
}

/// `POST /studio/patch-tests/{id}/link`: a new link, once the old one cannot be shown any more. A second tap makes no second.
pub async fn renew(
    State(studio): State<Shared>,
    Id(id): Id,
    SignedForm { signed, form }: SignedForm,
) -> Result<Redirect, Refusal> {
    only(&form, &[])?;
    let key = studio.link_key.clone();
    studio
        .record
        .write(move |record| {
            let held = holding(record, id)?;
            let newest = links::newest_to(record, Opens::PatchTest(id))?;
            let showable = newest.and_then(|link| key.showable(&link, signed.now));
            if showable.is_none() {
                let (link, by, now) = (Uuid::new_v4(), signed.artist, signed.now);
                give::add_to_test(record, &key, link, id, held.test.applied_at, by, now)?;
            }
            Ok::<_, Refusal>(())
        })
        .await?;
    Ok(back_to(id))
}

fn back_to(id: Uuid) -> Redirect {
    Redirect::to(&format!("/studio/patch-tests/{id}"))
}

/// A test that is there and was not withdrawn.
fn holding(record: &rusqlite::Connection, id: Uuid) -> Result<Held, Refusal> {
    let held = patch_tests::by_id(record, id)?.ok_or(Refusal::NotFound)?;
    match held.withdrawn() {
        Some(_) => Err(Refusal::NotFound),
        None => Ok(held),
    }
}

/// Adds to a test that holds.
async fn write(
    studio: &Studio,
    id: Uuid,
    write: impl FnOnce(&rusqlite::Transaction<'_>) -> Result<(), RecordError> + Send + 'static,
) -> Result<(), Refusal> {
    studio
        .record
        .write(move |record| {
            holding(record, id)?;
            write(record).map_err(Refusal::from)
        })
        .await
}

/// What the screen of a test is made from.
fn source(
    record: &rusqlite::Connection,
    id: Uuid,
) -> Result<Option<(Held, Client, Link)>, RecordError> {
    let Some(held) = patch_tests::by_id(record, id)? else {
        return Ok(None);
    };
    let lost = || RecordError::Unreadable("a patch test without its client or link".to_owned());
    let client = clients::by_id(record, held.test.client)?.ok_or_else(lost)?;
    let link = links::newest_to(record, Opens::PatchTest(id))?.ok_or_else(lost)?;
    Ok(Some((held, client, link)))
}

fn screen(
    studio: &Studio,
    signed: &SignedIn,
    id: Uuid,
    form: Filled,
) -> Result<Html<String>, Refusal> {
    let particulars = pages::artist::particulars(studio)?;
    let wall = pages::artist::wall(studio, &particulars);
    let source = studio
        .record
        .read(|record| source(record, id))?
        .ok_or(Refusal::NotFound)?;
    let view = pages::patch_tests::view(studio, source, &wall, form, signed.now);
    pages::artist::screen(
        studio,
        &particulars,
        signed,
        Screen::PatchTest(Box::new(view)),
    )
}
