//! The client's page of a patch test, and what the client says on it.

use axum::{
    extract::State,
    http::StatusCode,
    response::{Html, IntoResponse, Redirect, Response},
};
use chrono::TimeDelta;
use shared_types::{
    page::form::Filled,
    patch_test::{Answer, FIELDS},
};
use uuid::Uuid;

use super::TestHolder;
use crate::{
    error::{Refusal, sentence},
    handlers::posted::{Posted, only},
    links::address,
    pages,
    record::{
        patch_tests::{self, events},
        reports::Taken,
    },
    state::{Shared, Studio},
};

/// The same words later than this are told anew: it has not changed.
const SAME_SENDING: TimeDelta = TimeDelta::hours(1);

/// `GET /MY/{secret}` of a patch test.
pub fn show(studio: &Studio, holder: &TestHolder) -> Result<Response, Refusal> {
    if !holder.as_given_out {
        return Ok(Redirect::permanent(&address::path(&holder.secret)).into_response());
    }
    Ok(draw(studio, holder, Filled::default())?.into_response())
}

fn draw(studio: &Studio, holder: &TestHolder, form: Filled) -> Result<Html<String>, Refusal> {
    let page = pages::patch_test::page(studio, holder, form)?;
    pages::patch_test_page(studio, page, &holder.languages)
}

/// `POST /MY/{secret}/seen`: the plain form. Back to the page, which shows first what to do now; or the form again, with
/// everything that was typed and a sentence for what needs mending.
pub async fn post(
    State(studio): State<Shared>,
    holder: TestHolder,
    Posted(mut form): Posted,
) -> Result<Response, Refusal> {
    only(&form, FIELDS)?;
    let read = Answer::from_form(&form).map_err(|term| Refusal::Malformed(term.to_string()))?;
    let answer = match read {
        Ok(answer) => answer,
        Err(faults) => {
            let (_, words) = studio.words(&holder.language);
            for fault in &faults {
                form.blame(fault.field, sentence(words, fault));
            }
            let again = draw(&studio, &holder, form)?;
            return Ok((StatusCode::UNPROCESSABLE_ENTITY, again).into_response());
        }
    };
    let id = form
        .value("answer_id")
        .parse()
        .unwrap_or_else(|_| Uuid::new_v4());
    if !said_just_now(&studio, &holder, &answer)?
        && take(&studio, &holder, id, answer.clone()).await? == Taken::IdInUse
    {
        // A form that was filled in again after going back may carry the id of the answer before: it is a new answer.
        take(&studio, &holder, Uuid::new_v4(), answer).await?;
    }
    Ok(Redirect::to(&format!("{}#told", address::path(&holder.secret))).into_response())
}

/// Whether the latest answer says the very same and nobody has read it since: going back after sending, a browser loads
/// the form anew, with a new id, and fills in what was typed.
fn said_just_now(studio: &Studio, holder: &TestHolder, answer: &Answer) -> Result<bool, Refusal> {
    let held = studio
        .record
        .read(|record| patch_tests::by_id(record, holder.test))?
        .ok_or(Refusal::NotFound)?;
    let Some(latest) = held.answers.last() else {
        return Ok(false);
    };
    let read_since = held
        .events
        .iter()
        .any(|event| event.at > latest.received_at);
    Ok(latest.answer == *answer && !read_since && holder.now.0 - latest.received_at < SAME_SENDING)
}

async fn take(
    studio: &Studio,
    holder: &TestHolder,
    id: Uuid,
    answer: Answer,
) -> Result<Taken, Refusal> {
    let (link, test, now) = (holder.link.id, holder.test, holder.now.0);
    // What is there already is answered whatever the limit says.
    if let Some(taken) = studio
        .record
        .read(|record| events::standing_of(record, id, test, &answer))?
    {
        return Ok(taken);
    }
    studio.limits.report(link)?;
    let taken = studio
        .record
        .write(move |record| events::take(record, id, test, link, &answer, now))
        .await?;
    Ok(taken)
}
