//! The plain form of a report, which may bring photos.

use axum::{
    extract::State,
    http::StatusCode,
    response::{IntoResponse, Redirect, Response},
};
use chrono::{DateTime, TimeDelta, Utc};
use rusqlite::Transaction;
use shared_types::{
    reaction::Report,
    urgency::{Answer, Field},
};
use uuid::Uuid;

use super::{
    super::{Holder, photos::OfForm, trouble},
    Ready,
};
use crate::{
    error::{Refusal, sentence},
    handlers::posted_photos::{NotKept, Offered, PostedWithPhotos},
    links::address,
    pages::{self, client::Source, trouble::Asked},
    record::reports::{self, Held, Taken},
    state::{Shared, Studio},
};

/// As many photos as a report announces, however many more came with it.
const MOST: usize = shared_types::photos::PHOTOS_MAX as usize;
/// The same words later than this are told anew: it has not got better.
const SAME_SENDING: TimeDelta = TimeDelta::hours(1);

/// `POST /MY/{secret}/reports`: the plain form. Back to the client's page, which shows the report as received; or the form
/// again, with everything that was typed and a sentence for what needs mending.
pub async fn post(
    State(studio): State<Shared>,
    holder: Holder,
    PostedWithPhotos { form, photos }: PostedWithPhotos,
) -> Result<Response, Refusal> {
    let mut asked = trouble::asked(&studio, &holder, form)?;
    let answers = asked.answers.clone().unwrap_or_default();
    let mut report = Report::from_form(answers, &asked.form)
        .map_err(|term| Refusal::Malformed(term.to_string()))?;
    report.photos = u8::try_from(photos.len().min(MOST)).unwrap_or(u8::MAX);
    let (_, words) = studio.words(&holder.language);
    let with_photos = !photos.is_empty();
    let faults = report.faults();
    if !faults.is_empty() {
        for fault in &faults {
            asked.form.blame(fault.field, sentence(words, fault));
        }
        if with_photos {
            trouble::ask_for_photos(words, &mut asked.form);
        }
        let page = trouble::draw(&studio, &holder, asked)?;
        return Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response());
    }
    let source = pages::client::read(&studio, &holder)?;
    let id = asked.form.value("report_id").parse();
    let id = id.unwrap_or_else(|_| Uuid::new_v4());
    let left_out = match keep(&studio, &holder, &source, id, report, photos).await {
        Ok(left_out) => left_out,
        Err(refusal) => {
            if with_photos {
                trouble::ask_for_photos(words, &mut asked.form);
            }
            return Ok(not_sent(&studio, &holder, &source, asked, refusal));
        }
    };
    if left_out.is_empty() {
        return Ok(back_to_page(&holder));
    }
    let said = left_out.into_iter().map(|(name, why)| {
        let why = why.sentence(words);
        let studio = source.studio.name.as_str();
        let values = [("studio", studio), ("name", &name), ("why", &why)];
        words.fill("client.tell.photo_left_out", &values)
    });
    let said: Vec<String> = said.collect();
    asked.form.blame("photos", said.join(" "));
    Ok(trouble::draw(&studio, &holder, asked)?.into_response())
}

fn back_to_page(holder: &Holder) -> Response {
    Redirect::to(&format!("{}#reports", address::path(&holder.secret))).into_response()
}

/// The form with what was typed, when the record could not take it: that it is not there yet, and whom to call.
fn not_sent(
    studio: &Shared,
    holder: &Holder,
    source: &Source,
    mut asked: Asked,
    refusal: Refusal,
) -> Response {
    let (_, words) = studio.words(&holder.language);
    let why = refusal.sentence(words);
    let (name, phone) = (&source.studio.name, &source.studio.phone);
    let mut said = words.fill("client.tell.not_sent", &[("studio", name), ("why", &why)]);
    if !phone.is_empty() {
        said.push(' ');
        said += &words.fill("client.tell.or_call", &[("studio", name), ("phone", phone)]);
    }
    asked.form.blame("", said);
    if matches!(refusal, Refusal::ReportIdInUse) {
        // The form that comes back makes one of its own.
        asked.form.forget("report_id");
    }
    match trouble::draw(studio, holder, asked) {
        Ok(page) => refusal.around(page),
        Err(_) => refusal.into_response(),
    }
}

/// Keeps a plain form's report with its photos, all of it or nothing. One that is there already gets the photos that came
/// with it this time. Gives the names of those that were left out, and why.
async fn keep(
    studio: &Studio,
    holder: &Holder,
    source: &Source,
    id: Uuid,
    report: Report,
    offered: Vec<Offered>,
) -> Result<Vec<(String, NotKept)>, Refusal> {
    let consent = report.consents.photos.clone();
    if let Some(held) = said_already(source, id, &report, holder.now.0) {
        let photos = OfForm::of(holder, held.id, consent, offered);
        return photos.keep(studio, holder, |_| Ok(())).await;
    }
    // A form that was filled in again after going back may carry the id of the report before: it is a new report.
    let is_free = studio
        .record
        .look(|record| Ok(reports::by_id(record, id)?.is_none()))?;
    let id = if is_free { id } else { Uuid::new_v4() };
    let report = report.beside(&source.treatments, holder.now.0 - source.finished_at);
    let ready = Ready::new(studio, holder, source, report)?;
    let photos = OfForm::of(holder, id, consent, offered);
    let take = move |record: &Transaction<'_>| match ready.take(record, id)? {
        Taken::New | Taken::Again(_) => Ok(()),
        // Another one has come under it since a moment ago.
        Taken::IdInUse => Err(Refusal::ReportIdInUse),
    };
    photos.keep(studio, holder, take).await
}

/// The visit's report that says the very same, whatever photos came with either: the one with this id, or the latest while
/// it is fresh and nobody has answered it. Going back after sending, a browser loads the form anew, with a new id, and
/// fills in what was typed.
fn said_already<'a>(
    source: &'a Source,
    id: Uuid,
    report: &Report,
    now: DateTime<Utc>,
) -> Option<&'a Held> {
    source.reports.iter().enumerate().find_map(|(at, held)| {
        let is_fresh = at == 0 && held.answers.is_empty() && now - held.received_at < SAME_SENDING;
        // Nothing began before the visit: that was told by the time of the first sending.
        let since_visit = match held.report.answers.get(Field::HoursSinceVisit) {
            Answer::At(minutes) => TimeDelta::minutes(minutes.into()),
            _ => now - source.finished_at,
        };
        let mut again = report.clone().beside(&source.treatments, since_visit);
        again.photos = held.report.photos;
        let is_same = reports::said_the_same(&held.report, &again);
        ((held.id == id || is_fresh) && is_same).then_some(held)
    })
}
