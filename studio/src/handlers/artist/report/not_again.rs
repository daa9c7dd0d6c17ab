//! A product that is not to be used again for the client of a report.

use axum::{
    extract::State,
    response::{IntoResponse, Redirect, Response},
};
use shared_types::{
    consultation::NotAgain,
    visit::{Visit, limits},
};
use uuid::Uuid;

use super::{
    super::{
        Id,
        check::Check,
        waits::{Reports, back, write},
    },
    Forms, refused,
};
use crate::{
    error::Refusal,
    handlers::posted::only,
    pages,
    record::{
        not_again,
        reports::{self, events},
        visits,
    },
    security::session::SignedForm,
    state::{Shared, Studio},
};

/// `POST /studio/reports/{id}/not-again`: from now on it is warned of at every visit of this client.
pub async fn note(
    State(studio): State<Shared>,
    Id(id): Id,
    SignedForm { signed, mut form }: SignedForm,
) -> Result<Response, Refusal> {
    only(&form, &["product", "whole", "words"])?;
    let visit = visit_of(&studio, id)?;
    let particulars = pages::artist::particulars(&studio)?;
    let mut check = Check::new(&form, studio.words(&particulars.language).1);
    let words = check.text("words", limits::NOTE);
    let place: Option<usize> = form.value("product").parse().ok();
    let product = place.and_then(|place| visit.products.get(place));
    if product.is_none() {
        check.fault("product", "fault.product_none", &[]);
    }
    let faults = check.faults();
    let product = match product {
        Some(product) if faults.is_empty() => product,
        _ => {
            form.blame_all(faults);
            let forms = Forms {
                not_again: form,
                ..Forms::default()
            };
            return refused(&studio, &signed, id, forms);
        }
    };
    let whole = form.has("whole", "yes");
    let what = NotAgain {
        product: product.name.clone(),
        batch: if whole {
            String::new()
        } else {
            product.batch.clone()
        },
    };
    let client = visit.client;
    write::<Reports, _>(&studio, id, move |record| {
        events::see(record, id, signed.artist, signed.now)?;
        let new = not_again::New {
            client,
            report: id,
            what: &what,
            words: &words,
        };
        not_again::note(record, &new, signed.artist, signed.now)
    })
    .await?;
    Ok(back::<Reports>(id).into_response())
}

/// `POST /studio/reports/{id}/lift`
pub async fn lift(
    State(studio): State<Shared>,
    Id(id): Id,
    SignedForm { signed, form }: SignedForm,
) -> Result<Redirect, Refusal> {
    only(&form, &["not_again"])?;
    let client = visit_of(&studio, id)?.client;
    let one: Uuid = form
        .value("not_again")
        .parse()
        .map_err(|_| Refusal::NotFound)?;
    write::<Reports, _>(&studio, id, move |record| {
        not_again::lift(record, client, one, signed.artist, signed.now)
    })
    .await?;
    Ok(back::<Reports>(id))
}

fn visit_of(studio: &Studio, report: Uuid) -> Result<Visit, Refusal> {
    let found = studio.record.read(|record| {
        let held = reports::by_id(record, report)?;
        let visit = held.map(|held| visits::by_id(record, held.visit));
        Ok(visit.transpose()?.flatten())
    })?;
    found.map(|(visit, _)| visit).ok_or(Refusal::NotFound)
}
