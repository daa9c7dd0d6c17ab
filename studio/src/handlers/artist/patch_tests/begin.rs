//! Recording a patch test that was put on: the empty form, and what comes back in it.

use axum::{
    extract::{Query, State},
    http::StatusCode,
    response::{Html, IntoResponse, Redirect, Response},
};
use serde::Deserialize;
use shared_types::{
    page::{artist::Screen, form::Filled, patch_tests::NewPatchTest},
    patch_test::{Applied, PLACE_WORDS_MAX, Place},
    visit::{Product, Treatment, limits},
};
use uuid::Uuid;

use super::super::{
    check::Check,
    record_visit::{self, end::read_end},
};
use crate::{
    error::Refusal,
    handlers::posted::only,
    links::give,
    pages,
    record::{
        clients::{self, Client},
        patch_tests,
        studio::Particulars,
        visits,
    },
    security::session::{SignedForm, SignedIn},
    state::{Shared, Studio},
};

const FIELDS: &[&str] = &[
    "test_id",
    "client",
    "first_name",
    "reach",
    "date",
    "time",
    "treatments",
    "product",
    "batch",
    "place",
    "place_words",
    "note",
];

#[derive(Deserialize)]
pub struct For {
    client: Option<String>,
}

/// `GET /studio/patch-tests/new`; `?client=…` chooses a client who is known.
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
    form.put("place", Place::BehindTheEar.term());
    if let Some(client) = query.client {
        form.put("client", client);
    }
    screen(&studio, &particulars, &signed, form)
}

/// `POST /studio/patch-tests/new`
pub async fn send(
    State(studio): State<Shared>,
    SignedForm { signed, mut form }: SignedForm,
) -> Result<Response, Refusal> {
    only(&form, FIELDS)?;
    let particulars = pages::artist::particulars(&studio)?;
    let (test, client, is_new) = match read(&studio, &particulars, &signed, &form)? {
        Ok(read) => read,
        Err(faults) => {
            form.blame_all(faults);
            return refused(&studio, &particulars, &signed, form);
        }
    };
    let id = test.id;
    let key = studio.link_key.clone();
    let version = studio.content.version.clone();
    let (artist, now) = (signed.artist, signed.now);
    let kept = studio
        .record
        .write(move |record| {
            if let Some(held) = patch_tests::by_id(record, id)? {
                let known = clients::by_id(record, held.test.client)?;
                let of_same = known.is_some_and(|known| is_same_client(&client, &known, is_new));
                let same = Applied {
                    client: held.test.client,
                    ..test
                } == held.test;
                return Ok::<_, Refusal>(of_same && same);
            }
            if is_new {
                clients::add(record, &client, artist, now)?;
            }
            patch_tests::add(record, &test, &version, artist, now)?;
            let link = Uuid::new_v4();
            give::add_to_test(record, &key, link, id, test.applied_at, artist, now)?;
            Ok(true)
        })
        .await?;
    if kept {
        return Ok(Redirect::to(&format!("/studio/patch-tests/{id}")).into_response());
    }
    // The form was filled in again after going back: nothing is overwritten, and nothing that was typed is lost.
    let (_, words) = studio.words(&particulars.language);
    form.forget("test_id");
    form.blame("", words.say("fault.patch_test_recorded"));
    refused(&studio, &particulars, &signed, form)
}

/// Whether the client of a form is the one of the record. A new one gets another id each time the form is read.
fn is_same_client(client: &Client, known: &Client, is_new: bool) -> bool {
    if is_new {
        (&client.first_name, &client.reach) == (&known.first_name, &known.reach)
    } else {
        client.id == known.id
    }
}

/// Field and sentence, for each that needs mending.
type Faults = Vec<(String, String)>;

/// The test that the form tells, with its client and whether that is somebody new; or what needs mending.
fn read(
    studio: &Studio,
    particulars: &Particulars,
    signed: &SignedIn,
    form: &Filled,
) -> Result<Result<(Applied, Client, bool), Faults>, Refusal> {
    let (_, words) = studio.words(&particulars.language);
    let mut check = Check::new(form, words);
    let (client, is_new) = record_visit::read_client(&mut check, studio, form)?;
    let applied_at = read_end(&mut check, form, particulars.time_zone, signed.now);
    let catalogue = &studio.content.catalogue;
    let place = form.value("place").parse();
    if place.is_err() {
        check.fault("place", "fault.unknown_choice", &[]);
    }
    let place = place.unwrap_or(Place::Elsewhere);
    let place_words = check.text("place_words", PLACE_WORDS_MAX);
    if place == Place::Elsewhere && place_words.is_empty() {
        check.fault("place_words", "fault.patch_place", &[]);
    }
    let test = Applied {
        id: form
            .value("test_id")
            .parse()
            .unwrap_or_else(|_| Uuid::new_v4()),
        client: client.id,
        treatments: read_treatments(&mut check, &catalogue.tested_before(), form),
        product: Product {
            name: check.needed("product", limits::PRODUCT),
            batch: check.text("batch", limits::BATCH),
        },
        place,
        place_words,
        applied_at: applied_at.unwrap_or(signed.now),
        look_hours: catalogue.patch_test.look_hours(),
        note: check.text("note", limits::NOTE),
    };
    let faults = check.faults();
    Ok(if faults.is_empty() {
        Ok((test, client, is_new))
    } else {
        Err(faults)
    })
}

fn read_treatments(check: &mut Check<'_>, offered: &[Treatment], form: &Filled) -> Vec<Treatment> {
    let mut treatments = Vec::new();
    for given in form.all("treatments") {
        match given.parse() {
            Ok(one) if offered.contains(&one) => treatments.push(one),
            _ => check.fault("treatments", "fault.unknown_choice", &[]),
        }
    }
    if treatments.is_empty() {
        check.fault("treatments", "fault.patch_treatments", &[]);
    }
    treatments.sort_unstable();
    treatments.dedup();
    treatments
}

fn refused(
    studio: &Studio,
    particulars: &Particulars,
    signed: &SignedIn,
    form: Filled,
) -> Result<Response, Refusal> {
    let again = screen(studio, particulars, signed, form)?;
    Ok((StatusCode::UNPROCESSABLE_ENTITY, again).into_response())
}

fn screen(
    studio: &Studio,
    particulars: &Particulars,
    signed: &SignedIn,
    form: Filled,
) -> Result<Html<String>, Refusal> {
    let (_, words) = studio.words(&particulars.language);
    let chosen = form.value("client").parse().ok();
    let (clients, known_products) = studio.record.read(|record| {
        Ok((
            record_visit::offered_clients(record, chosen)?,
            visits::products_lately(record, record_visit::PRODUCTS_OFFERED)?,
        ))
    })?;
    let named = |kind: &str, term: &str| {
        let name = words.say(&format!("{kind}.{term}")).to_owned();
        (term.to_owned(), name)
    };
    let offered = studio.content.catalogue.tested_before();
    let screen = NewPatchTest {
        test_id: form
            .value("test_id")
            .parse()
            .unwrap_or_else(|_| Uuid::new_v4()),
        clients,
        treatments: offered
            .iter()
            .map(|one| named("treatment", one.term()))
            .collect(),
        places: Place::ALL
            .iter()
            .map(|one| named("patch_place", one.term()))
            .collect(),
        known_products,
        form,
    };
    pages::artist::screen(
        studio,
        particulars,
        signed,
        Screen::NewPatchTest(Box::new(screen)),
    )
}
