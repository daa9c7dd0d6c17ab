//! The form of a visit, filled in.

use axum::{
    http::StatusCode,
    response::{Html, IntoResponse, Response},
};
use shared_types::{
    page::{
        artist::{RecordVisit, Screen},
        form::Filled,
    },
    visit::Finding,
};
use uuid::Uuid;

use super::{before, look, past, zones};
use crate::{
    error::Refusal,
    pages,
    record::{RecordError, clients, studio::Particulars, visits},
    security::session::SignedIn,
    state::Studio,
};

/// Clients offered in the choice, and visits whose products are offered.
const CLIENTS_OFFERED: u32 = 300;
pub(in super::super) const PRODUCTS_OFFERED: u32 = 60;

/// Id and "first name · reach" of the clients in the choice.
pub(in super::super) fn offered_clients(
    record: &rusqlite::Connection,
    chosen: Option<Uuid>,
) -> Result<Vec<(String, String)>, RecordError> {
    let mut clients = clients::lately_seen(record, CLIENTS_OFFERED)?;
    // Whoever was chosen is offered, however long ago the last visit was.
    if let Some(chosen) = chosen
        && !clients.iter().any(|client| client.id == chosen)
    {
        clients.extend(clients::by_id(record, chosen)?);
    }
    let named = |client: clients::Client| {
        let reach = if client.reach.is_empty() {
            String::new()
        } else {
            format!(" · {}", client.reach)
        };
        let name = format!("{}{reach}", client.first_name);
        (client.id.to_string(), name)
    };
    Ok(clients.into_iter().map(named).collect())
}

/// The form again, with what is to be mended in it.
pub(super) fn refused(
    studio: &Studio,
    particulars: &Particulars,
    signed: &SignedIn,
    form: Filled,
) -> Result<Response, Refusal> {
    Ok((
        StatusCode::UNPROCESSABLE_ENTITY,
        screen(studio, particulars, signed, form)?,
    )
        .into_response())
}

/// The form as it stands, with what is known of the chosen client.
pub(super) fn screen(
    studio: &Studio,
    particulars: &Particulars,
    signed: &SignedIn,
    mut form: Filled,
) -> Result<Html<String>, Refusal> {
    let (_, words) = studio.words(&particulars.language);
    let past = past(studio, &form)?;
    form.forget("look_up");
    look::fit(&mut form, &past);
    zones::fit(&mut form, &past);
    let before = before::part(studio, particulars, signed, &mut form, &past)?;
    let chosen = form.value("client").parse().ok();
    let (clients, known_products) = studio.record.read(|record| {
        Ok((
            offered_clients(record, chosen)?,
            visits::products_lately(record, PRODUCTS_OFFERED)?,
        ))
    })?;
    let named = |kind: &str, term: &str| {
        (
            term.to_owned(),
            words.say(&format!("{kind}.{term}")).to_owned(),
        )
    };
    let look_again = pages::looked::again(
        &studio.content.catalogue,
        form.value("looked_at").to_owned(),
        &past,
        signed.now,
        words,
    );
    let look_again = studio
        .record
        .read(|record| pages::looked::with_forecasts(record, look_again, &particulars.language))?;
    let screen = RecordVisit {
        visit_id: form
            .value("visit_id")
            .parse()
            .unwrap_or_else(|_| Uuid::new_v4()),
        clients,
        treatments: studio
            .content
            .catalogue
            .treatments
            .keys()
            .map(|one| named("treatment", one.term()))
            .collect(),
        findings: Finding::CONSULTATION
            .iter()
            .map(|one| named("finding", one.term()))
            .collect(),
        during: Finding::DURING_THE_VISIT
            .iter()
            .map(|one| named("finding", one.term()))
            .collect(),
        known_products,
        look_again,
        before,
        form,
    };
    pages::artist::screen(
        studio,
        particulars,
        signed,
        Screen::RecordVisit(Box::new(screen)),
    )
}
