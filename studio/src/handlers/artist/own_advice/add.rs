//! A caution that the catalogue does not have.

use axum::{
    extract::{Path, State},
    http::StatusCode,
    response::{Html, IntoResponse, Redirect, Response},
};
use shared_types::{
    care_plan::own::{AddedCaution, OwnAdvice},
    page::{artist::Screen, form::Filled, own_advice::AddCaution},
    visit::{Treatment, limits},
};
use uuid::Uuid;

use super::{super::check::Check, Faults, read_hours};
use crate::{
    error::Refusal,
    handlers::posted::only,
    pages,
    record::versions,
    security::session::{SignedForm, SignedIn},
    state::{Shared, Studio},
};

const FIELDS: &[&str] = &["treatments", "what", "why", "hours", "remove"];

/// `GET /studio/cautions/new`: the id is made here, so that a second tap adds nothing.
pub async fn fresh(
    State(studio): State<Shared>,
    signed: SignedIn,
) -> Result<Html<String>, Refusal> {
    let id = Uuid::new_v4().to_string();
    screen(&studio, &signed, &id, Filled::default())
}

/// `GET /studio/cautions/own/{id}`
pub async fn show(
    State(studio): State<Shared>,
    signed: SignedIn,
    Path(id): Path<String>,
) -> Result<Html<String>, Refusal> {
    let own: OwnAdvice = studio.record.read(versions::current)?;
    let one = own.added.iter().find(|one| one.id == id);
    let one = one.ok_or(Refusal::NotFound)?;
    let mut form = Filled::default();
    for treatment in &one.treatments {
        form.put("treatments", treatment.term());
    }
    form.put("what", one.what.clone());
    form.put("why", one.why.clone());
    form.put("hours", one.hours.to_string());
    screen(&studio, &signed, &id, form)
}

/// `POST /studio/cautions/own/{id}`
pub async fn send(
    State(studio): State<Shared>,
    Path(id): Path<String>,
    SignedForm { signed, mut form }: SignedForm,
) -> Result<Response, Refusal> {
    only(&form, FIELDS)?;
    let added = if form.value("remove").is_empty() {
        match read(&studio, &form, &id)? {
            Ok(added) => Some(added),
            Err(faults) => {
                form.blame_all(faults);
                let again = screen(&studio, &signed, &id, form)?;
                return Ok((StatusCode::UNPROCESSABLE_ENTITY, again).into_response());
            }
        }
    } else {
        None
    };
    let (artist, now) = (signed.artist, signed.now);
    studio
        .record
        .write(move |record| {
            let mut own: OwnAdvice = versions::current(record)?;
            match (own.added.iter().position(|one| one.id == id), added) {
                (Some(at), Some(added)) => own.added[at] = added,
                (Some(at), None) => drop(own.added.remove(at)),
                (None, added) => own.added.extend(added),
            }
            versions::add(record, &own, artist, now)
        })
        .await?;
    Ok(Redirect::to("/studio/cautions").into_response())
}

fn read(studio: &Studio, form: &Filled, id: &str) -> Result<Result<AddedCaution, Faults>, Refusal> {
    let particulars = pages::artist::particulars(studio)?;
    let (_, words) = studio.words(&particulars.language);
    let mut check = Check::new(form, words);
    let treatments = read_treatments(&mut check, studio, form);
    if treatments.is_empty() {
        check.fault("treatments", "fault.required", &[]);
    }
    let added = AddedCaution {
        id: id.to_owned(),
        treatments,
        what: check.needed("what", limits::REACH),
        why: check.text("why", limits::NOTE),
        hours: {
            check.needed("hours", super::DIGITS);
            read_hours(&mut check).unwrap_or_default()
        },
    };
    let faults = check.faults();
    if !faults.is_empty() {
        return Ok(Err(faults));
    }
    // Only an address that was typed by hand has another id than the form's.
    match added.fault(&studio.content.catalogue) {
        Some(_) => Err(Refusal::NotFound),
        None => Ok(Ok(added)),
    }
}

/// The ticked treatments, in their order, each once.
pub(super) fn read_treatments(
    check: &mut Check<'_>,
    studio: &Studio,
    form: &Filled,
) -> Vec<Treatment> {
    let mut treatments = Vec::new();
    for given in form.all("treatments") {
        match given.parse::<Treatment>() {
            Ok(one) if studio.content.catalogue.treatments.contains_key(&one) => {
                treatments.push(one)
            }
            _ => check.fault("treatments", "fault.unknown_choice", &[]),
        }
    }
    treatments.sort_unstable();
    treatments.dedup();
    treatments
}

fn screen(
    studio: &Studio,
    signed: &SignedIn,
    id: &str,
    form: Filled,
) -> Result<Html<String>, Refusal> {
    let particulars = pages::artist::particulars(studio)?;
    let (_, words) = studio.words(&particulars.language);
    let own: OwnAdvice = studio.record.read(versions::current)?;
    let screen = AddCaution {
        form,
        address: format!("/studio/cautions/own/{id}"),
        treatments: treatments(studio, words),
        is_kept: own.added.iter().any(|one| one.id == id),
    };
    pages::artist::screen(studio, &particulars, signed, Screen::AddCaution(screen))
}

/// Term and name of each treatment that is offered.
pub(super) fn treatments(
    studio: &Studio,
    words: &shared_types::words::Words,
) -> Vec<(String, String)> {
    let offered = studio.content.catalogue.treatments.keys();
    offered
        .map(|one| {
            let key = format!("treatment.{one}");
            (one.term().to_owned(), words.say(&key).to_owned())
        })
        .collect()
}
