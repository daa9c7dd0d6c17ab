//! Closing a link, and making a new one.

use axum::{extract::State, response::Redirect};
use uuid::Uuid;

use super::Id;
use crate::{
    error::Refusal,
    handlers::posted::only,
    links::give,
    record::{
        links::{self, Opens},
        visits,
    },
    security::session::SignedForm,
    state::Shared,
};

/// `POST /studio/visits/{id}/revoke`
pub async fn revoke(
    State(studio): State<Shared>,
    Id(visit): Id,
    SignedForm { signed, form }: SignedForm,
) -> Result<Redirect, Refusal> {
    only(&form, &[])?;
    studio
        .record
        .write(move |record| {
            if !visits::exists(record, visit)? {
                return Err(Refusal::NotFound);
            }
            Ok(links::revoke_all_of(
                record,
                Opens::Visit(visit),
                signed.artist,
                signed.now,
            )?)
        })
        .await?;
    Ok(Redirect::to(&format!("/studio/visits/{visit}")))
}

/// `POST /studio/visits/{id}/link`: a new link, once the old one cannot be shown any more. A second tap makes no second.
pub async fn renew(
    State(studio): State<Shared>,
    Id(visit): Id,
    SignedForm { signed, form }: SignedForm,
) -> Result<Redirect, Refusal> {
    only(&form, &[])?;
    let key = studio.link_key.clone();
    studio
        .record
        .write(move |record| {
            let (held, _) = visits::by_id(record, visit)?.ok_or(Refusal::NotFound)?;
            let newest = links::newest_of(record, visit)?;
            if newest
                .and_then(|link| key.showable(&link, signed.now))
                .is_none()
            {
                give::add(
                    record,
                    &key,
                    Uuid::new_v4(),
                    visit,
                    held.finished_at,
                    signed.artist,
                    signed.now,
                )?;
            }
            Ok::<_, Refusal>(())
        })
        .await?;
    Ok(Redirect::to(&format!("/studio/visits/{visit}")))
}
