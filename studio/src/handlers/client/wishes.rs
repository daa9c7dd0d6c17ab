//! A wish for a time. Taken like a report: acknowledged when it is on disk, and never lost or doubled before.

use axum::{
    Json,
    extract::{Path, State},
    http::StatusCode,
    response::{IntoResponse, Redirect, Response},
};
use chrono::{DateTime, NaiveDate, TimeDelta, Utc};
use shared_types::{
    wire::Receipt,
    wish::{FIELDS, Span, Wish, farthest},
};
use uuid::Uuid;

use super::{Holder, page};
use crate::{
    error::{Refusal, sentence},
    handlers::posted::{Posted, Sent, only},
    links::address,
    pages::client::{self, Source},
    record::{reports::Taken, wishes},
    state::{Shared, Studio},
};

/// The same wish later than this is asked anew.
const SAME_SENDING: TimeDelta = TimeDelta::hours(1);

/// `PUT /MY/{secret}/wishes/{id}`: from the living page, which made the id and sends again until it is answered.
/// 201 when the wish was taken, 200 when the very same was there already, 409 when the id is another wish's.
pub async fn put(
    State(studio): State<Shared>,
    holder: Holder,
    Path((_, id)): Path<(String, Uuid)>,
    Sent(wish): Sent<Wish>,
) -> Result<Response, Refusal> {
    let wish = wish.tidied();
    let source = client::read(&studio, &holder)?;
    let wall = source.wall(&studio);
    let now = holder.now.0;
    let (status, received_at) =
        match take(&studio, &holder, id, wish, &Days::from(wall.day(now))).await? {
            Taken::New => (StatusCode::CREATED, now),
            Taken::Again(at) => (StatusCode::OK, at),
            Taken::IdInUse => return Err(Refusal::WishIdInUse),
        };
    let received = wall.moment(received_at, now);
    Ok((status, Json(Receipt { id, received })).into_response())
}

/// `POST /MY/{secret}/wishes`: the plain form. Back to the page, which shows the wish as received; or the form again,
/// with everything that was typed and a sentence for what needs mending.
pub async fn post(
    State(studio): State<Shared>,
    holder: Holder,
    Posted(mut form): Posted,
) -> Result<Response, Refusal> {
    only(&form, &[&["wish_id"], &FIELDS[..]].concat())?;
    let source = client::read(&studio, &holder)?;
    let wall = source.wall(&studio);
    let days = Days::from(wall.day(holder.now.0));
    let wish = match Wish::from_form(&form, days.span()) {
        Ok(wish) => wish,
        Err(faults) => {
            for fault in &faults {
                form.blame(fault.field, sentence(wall.words, fault));
            }
            let page = page::with_form(&studio, &holder, form)?;
            return Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response());
        }
    };
    let id = form
        .value("wish_id")
        .parse()
        .unwrap_or_else(|_| Uuid::new_v4());
    // As with reports: a form that was filled in again after going back may carry the id of the wish before.
    if !asked_just_now(&source, &wish, holder.now.0)
        && take(&studio, &holder, id, wish.clone(), &days).await? == Taken::IdInUse
    {
        take(&studio, &holder, Uuid::new_v4(), wish, &days).await?;
    }
    let path = address::path(&holder.secret);
    Ok(Redirect::to(&format!("{path}#wish")).into_response())
}

/// The days that a wish may name, as it writes them.
struct Days([String; 2]);

impl From<NaiveDate> for Days {
    fn from(today: NaiveDate) -> Self {
        Self([today, farthest(today)].map(|day| day.to_string()))
    }
}

impl Days {
    fn span(&self) -> Span<'_> {
        let [first, last] = &self.0;
        Span { first, last }
    }
}

/// Whether the visit's latest wish is the very same and nobody has answered it yet: then it was sent again by going back.
fn asked_just_now(source: &Source, wish: &Wish, now: DateTime<Utc>) -> bool {
    source.wishes.first().is_some_and(|held| {
        held.wish == *wish && held.events.is_empty() && now - held.received_at < SAME_SENDING
    })
}

async fn take(
    studio: &Studio,
    holder: &Holder,
    id: Uuid,
    wish: Wish,
    days: &Days,
) -> Result<Taken, Refusal> {
    let (link, visit, now) = (holder.link.id, holder.visit, holder.now.0);
    // What is there already is answered whatever the limit says, and also when its days have passed meanwhile: sending
    // again is how nothing gets lost.
    if let Some(taken) = studio
        .record
        .read(|record| wishes::standing_of(record, id, visit, &wish))?
    {
        return Ok(taken);
    }
    if let Some(fault) = wish.faults(days.span()).first() {
        return Err(Refusal::NotTaken(*fault));
    }
    studio.limits.wish(link)?;
    let taken = studio
        .record
        .write(move |record| wishes::take(record, id, visit, link, &wish, now))
        .await?;
    Ok(taken)
}
