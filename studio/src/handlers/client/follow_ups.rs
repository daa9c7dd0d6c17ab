//! How it goes, answered when the page asks again.

use axum::{
    Json,
    extract::{Path, State},
    response::{IntoResponse, Redirect, Response},
};
use chrono::TimeDelta;
use shared_types::{
    reaction::{FollowUp, How, Told},
    wire::Receipt,
};
use uuid::Uuid;

use super::Holder;
use crate::{
    error::Refusal,
    handlers::posted::{Posted, Sent, only},
    links::address,
    pages::{self, client::Source},
    record::reports::{Held, follow_ups},
    state::{Shared, Studio},
};

/// `PUT /MY/{secret}/reports/{id}/follow-ups/{hours}`: from the living page, again until it is answered. The
/// latest answer to each question counts; the same again changes nothing and gets the same receipt.
pub async fn put(
    State(studio): State<Shared>,
    holder: Holder,
    Path((_, report, hours)): Path<(String, Uuid, u32)>,
    Sent(follow_up): Sent<FollowUp>,
) -> Result<Json<Receipt>, Refusal> {
    let source = pages::client::read(&studio, &holder)?;
    take(&studio, &holder, &source, report, hours, &follow_up).await?;
    let wall = source.wall(&studio);
    Ok(Json(Receipt {
        id: report,
        received: wall.moment(holder.now.0, holder.now.0),
    }))
}

/// `POST` to the same: a plain form's button. Back to the page, which says what to do now.
pub async fn post(
    State(studio): State<Shared>,
    holder: Holder,
    Path((_, report, hours)): Path<(String, Uuid, u32)>,
    Posted(form): Posted,
) -> Result<Response, Refusal> {
    only(&form, &["how"])?;
    let how: How =
        form.value("how")
            .parse()
            .map_err(|error: shared_types::reaction::UnknownTerm| {
                Refusal::Malformed(error.to_string())
            })?;
    let source = pages::client::read(&studio, &holder)?;
    take(&studio, &holder, &source, report, hours, &FollowUp { how }).await?;
    Ok(Redirect::to(&format!("{}#reports", address::path(&holder.secret))).into_response())
}

async fn take(
    studio: &Studio,
    holder: &Holder,
    source: &Source,
    report: Uuid,
    hours: u32,
    follow_up: &FollowUp,
) -> Result<(), Refusal> {
    let now = holder.now.0;
    let held = source.reports.iter().find(|held| held.id == report);
    let held = held.ok_or(Refusal::NotFound)?;
    let asked = is_asked(studio, held, hours, now);
    if !asked {
        return Err(Refusal::NotFound);
    }
    let rules = studio.content.catalogue.urgency.compiled();
    let later = follow_up.upon(&held.report, now - held.received_at);
    let judged = Told::new(&later.judge(&rules), &studio.content.version);
    let how = follow_up.how;
    studio
        .record
        .write(move |record| follow_ups::answer(record, report, hours, how, &judged, now))
        .await?;
    Ok(())
}

/// Whether there is such a question, and its time has come.
fn is_asked(studio: &Studio, held: &Held, hours: u32, now: chrono::DateTime<chrono::Utc>) -> bool {
    let asked = studio.content.catalogue.urgency.follow_ups();
    asked.0.contains(&hours) && now - held.received_at >= TimeDelta::hours(i64::from(hours))
}
