//! Recording a visit: the empty form, and what comes back in it.

mod advise;
mod before;
pub(super) mod end;
mod form;
mod look;
mod put_off;
mod screen;
mod zones;

use advise::advise;
pub(super) use form::read_client;
pub(super) use screen::{PRODUCTS_OFFERED, offered_clients};
use screen::{refused, screen};

use axum::{
    extract::{Query, State},
    response::{Html, IntoResponse, Redirect, Response},
};
use serde::Deserialize;
use shared_types::{consultation::Decision, page::form::Filled, visit::Visit};
use uuid::Uuid;

use crate::{
    error::Refusal,
    handlers::posted::only,
    links::give,
    pages,
    record::{clients, consultations, studio::Particulars, visits},
    security::session::{SignedForm, SignedIn},
    state::{Shared, Studio},
};

#[derive(Deserialize)]
pub struct For {
    client: Option<String>,
}

/// `GET /studio/visits/new`; `?client=…` chooses a client who is known.
pub async fn show(
    State(studio): State<Shared>,
    signed: SignedIn,
    Query(query): Query<For>,
) -> Result<Html<String>, Refusal> {
    let particulars = pages::artist::particulars(&studio)?;
    let local = signed.now.with_timezone(&particulars.time_zone);
    let mut form = Filled::default();
    form.put("date", local.format("%Y-%m-%d").to_string());
    form.put("time", local.format("%H:%M").to_string());
    if let Some(client) = query.client {
        form.put("client", client);
    }
    screen(&studio, &particulars, &signed, form)
}

/// `POST /studio/visits/new`
pub async fn send(
    State(studio): State<Shared>,
    SignedForm { signed, mut form }: SignedForm,
) -> Result<Response, Refusal> {
    let fields = [form::FIELDS, look::FIELDS, zones::FIELDS, before::FIELDS];
    only(&form, &fields.concat())?;
    let particulars = pages::artist::particulars(&studio)?;
    if !form.value("look_up").is_empty() {
        return Ok(screen(&studio, &particulars, &signed, form)?.into_response());
    }
    let past = past(&studio, &form)?;
    let recorded = match form::read(&studio, &particulars, &signed, &form, &past)? {
        Ok(recorded) => recorded,
        Err(faults) => {
            form.blame_all(faults);
            return refused(&studio, &particulars, &signed, form);
        }
    };
    let raised = before::raised(&studio, &particulars, &signed, &form, &past)?;
    let is_put_off = recorded.told.decision == Some(Decision::PutOff);
    if !is_put_off && before::is_news(&form, &raised) {
        let (_, words) = studio.words(&particulars.language);
        form.blame("", words.say("fault.look_first"));
        return refused(&studio, &particulars, &signed, form);
    }
    let consultation = before::kept(&studio, &particulars, &signed, &recorded, raised);
    if let Some(consultation) = &consultation
        && is_put_off
    {
        return if put_off::keep(&studio, &signed, &recorded, consultation).await? {
            Ok(Redirect::to(&format!("/studio/put-off/{}", consultation.id)).into_response())
        } else {
            recorded_already(&studio, &particulars, &signed, form)
        };
    }
    let advice = advise(&studio, &particulars, &past, &recorded.visit)?;
    let id = recorded.visit.id;
    let key = studio.link_key.clone();
    let (artist, now) = (signed.artist, signed.now);
    let kept = studio
        .record
        .write(move |record| {
            let held = consultations::by_id(record, id)?;
            if let Some((visit, client)) = visits::by_id(record, id)? {
                let told = held.map(|held| held.consultation.told).unwrap_or_default();
                return Ok::<_, Refusal>(recorded.is_the_same(&visit, &client, &told));
            }
            if held.is_some() {
                return Ok(false);
            }
            if recorded.client_is_new {
                clients::add(record, &recorded.client, artist, now)?;
            }
            visits::add(record, &recorded.visit, &advice, artist, now)?;
            if let Some(consultation) = &consultation {
                consultations::add(record, consultation, artist, now)?;
            }
            give::add(
                record,
                &key,
                Uuid::new_v4(),
                id,
                recorded.visit.finished_at,
                artist,
                now,
            )?;
            Ok(true)
        })
        .await?;
    if kept {
        return Ok(Redirect::to(&format!("/studio/visits/{id}")).into_response());
    }
    recorded_already(&studio, &particulars, &signed, form)
}

/// The form was filled in again after going back: nothing is overwritten, and nothing that was typed is lost.
fn recorded_already(
    studio: &Studio,
    particulars: &Particulars,
    signed: &SignedIn,
    mut form: Filled,
) -> Result<Response, Refusal> {
    let (_, words) = studio.words(&particulars.language);
    form.forget("visit_id");
    form.blame("", words.say("fault.visit_recorded"));
    refused(studio, particulars, signed, form)
}

/// The visits of the chosen client, by their end; none of somebody new.
fn past(studio: &Studio, form: &Filled) -> Result<Vec<Visit>, Refusal> {
    match form.value("client").parse() {
        Ok(client) => Ok(studio
            .record
            .look(|record| visits::of_client(record, client))?),
        Err(_) => Ok(Vec::new()),
    }
}

/// Those of the client's visits that ended before this one, by their end.
fn before<'a>(past: &'a [Visit], visit: &Visit) -> impl DoubleEndedIterator<Item = &'a Visit> {
    let this = (visit.finished_at, visit.id);
    past.iter()
        .filter(move |one| one.id != this.1 && (one.finished_at, one.id) < this)
}
