//! A treatment that was put off: kept for the client, without a visit.

use super::form::Recorded;
use crate::{
    error::Refusal,
    record::{clients, consultations, consultations::Consultation, visits},
    security::session::SignedIn,
    state::Studio,
};

/// Adds it, and its client where they are new. False, and nothing is changed, when something else has its id already;
/// a second tap sends the same again.
pub async fn keep(
    studio: &Studio,
    signed: &SignedIn,
    recorded: &Recorded,
    consultation: &Consultation,
) -> Result<bool, Refusal> {
    let (artist, now) = (signed.artist, signed.now);
    let (recorded, new) = (recorded.clone(), consultation.clone());
    studio
        .record
        .write(move |record| {
            if let Some(held) = consultations::by_id(record, new.id)? {
                let known = clients::by_id(record, held.consultation.client)?;
                let same_client = known.is_some_and(|known| recorded.is_the_same_client(&known));
                return Ok(same_client && is_the_same(&held.consultation, &new));
            }
            if visits::exists(record, new.id)? {
                return Ok(false);
            }
            if recorded.client_is_new {
                clients::add(record, &recorded.client, artist, now)?;
            }
            consultations::add(record, &new, artist, now)?;
            Ok(true)
        })
        .await
}

/// Beside the client, of whom a new one gets another id each time, and the words, which are those of their moment.
fn is_the_same(held: &Consultation, new: &Consultation) -> bool {
    let new = Consultation {
        client: held.client,
        shown: held.shown.clone(),
        content_version: held.content_version.clone(),
        ..new.clone()
    };
    new == *held
}
