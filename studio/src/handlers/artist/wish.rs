//! Wishes for a time: the list of them; and one, beside its visit, to be answered.

use axum::{
    extract::State,
    http::StatusCode,
    response::{Html, IntoResponse, Redirect, Response},
};
use chrono::{DateTime, Utc};
use shared_types::{
    page::{
        artist::Screen,
        form::Filled,
        wishes::{WishView, Wishes},
    },
    reaction::WORDS_MAX,
    wish::{TIMES, farthest, read_date, read_time},
};
use uuid::Uuid;

use super::{
    Id,
    check::Check,
    waits::{SETTLED, WAITING, Wishes as Waiting, back, write},
};
use crate::{
    error::Refusal,
    handlers::posted::only,
    pages::{self, wall::Wall},
    record::wishes::{
        self, Held,
        events::{self, Answer},
        inbox,
    },
    security::session::{SignedForm, SignedIn},
    state::{Shared, Studio},
};

/// `GET /studio/wishes`
pub async fn list(State(studio): State<Shared>, signed: SignedIn) -> Result<Html<String>, Refusal> {
    let particulars = pages::artist::particulars(&studio)?;
    let wall = pages::artist::wall(&studio, &particulars);
    let (waiting, settled) = studio.record.read(|record| {
        Ok((
            inbox::waiting(record, WAITING)?,
            inbox::settled(record, SETTLED)?,
        ))
    })?;
    let screen = Screen::Wishes(Wishes {
        waiting: pages::wishes::lines(&waiting, &wall, signed.now),
        settled: pages::wishes::lines(&settled, &wall, signed.now),
    });
    pages::artist::screen(&studio, &particulars, &signed, screen)
}

/// `GET /studio/wishes/{id}`
pub async fn show(
    State(studio): State<Shared>,
    signed: SignedIn,
    Id(id): Id,
) -> Result<Html<String>, Refusal> {
    screen(&studio, &signed, id, Filled::default())
}

/// `POST /studio/wishes/{id}/answer`: one of the times is taken, or words are sent, with another time or without.
pub async fn answer(
    State(studio): State<Shared>,
    Id(id): Id,
    SignedForm { signed, mut form }: SignedForm,
) -> Result<Response, Refusal> {
    let others = ["answer_id", "take", "text", "date", "time"];
    only(&form, &[&TIMES[..], &others].concat())?;
    let held = held(&studio, id)?;
    let particulars = pages::artist::particulars(&studio)?;
    let wall = pages::artist::wall(&studio, &particulars);
    let mut check = Check::new(&form, wall.words);
    let answer = read_answer(&mut check, &form, &held, &wall, signed.now);
    let faults = check.faults();
    let answer = match answer {
        Some(answer) if faults.is_empty() => answer,
        _ => {
            form.blame_all(faults);
            let screen = screen(&studio, &signed, id, form)?;
            return Ok((StatusCode::UNPROCESSABLE_ENTITY, screen).into_response());
        }
    };
    let answer_id = form
        .value("answer_id")
        .parse()
        .unwrap_or_else(|_| Uuid::new_v4());
    write::<Waiting, _>(&studio, id, move |record| {
        events::answer(record, answer_id, id, &answer, signed.artist, signed.now)
    })
    .await?;
    Ok(back::<Waiting>(id).into_response())
}

/// The answer in a form; what is wrong with it is noted.
fn read_answer(
    check: &mut Check<'_>,
    form: &Filled,
    held: &Held,
    wall: &Wall<'_>,
    now: DateTime<Utc>,
) -> Option<Answer> {
    let text = check.text("text", WORDS_MAX);
    let take = form.value("take");
    if !take.is_empty() {
        let rows = TIMES.into_iter().zip(&held.wish.times);
        let chosen = (1..).zip(rows).find(|(row, _)| take == row.to_string());
        let Some((_, (field, preferred))) = chosen else {
            check.fault("", "fault.agreed_which", &[]);
            return None;
        };
        let times = [preferred.date.as_str(), form.value(field)];
        let agreed = agreed(check, [field; 2], times, wall, now)?;
        return Some(Answer {
            text,
            agreed: Some(agreed),
        });
    }
    let (date, time) = (form.value("date").trim(), form.value("time").trim());
    if date.is_empty() && time.is_empty() {
        if text.is_empty() {
            check.fault("text", "fault.answer_empty", &[]);
        }
        return Some(Answer { text, agreed: None });
    }
    let agreed = agreed(check, ["date", "time"], [date, time], wall, now)?;
    Some(Answer {
        text,
        agreed: Some(agreed),
    })
}

/// A time to come on the studio's wall, made into an instant. Of two that it has when the clocks go back, it is the
/// earlier: better early than late.
fn agreed(
    check: &mut Check<'_>,
    [date_field, time_field]: [&str; 2],
    [date, time]: [&str; 2],
    wall: &Wall<'_>,
    now: DateTime<Utc>,
) -> Option<DateTime<Utc>> {
    let (date, time) = (read_date(date.trim()), read_time(time.trim()));
    if date.is_none() {
        check.fault(date_field, "fault.date", &[]);
    }
    if time.is_none() {
        check.fault(time_field, "fault.time", &[]);
    }
    let Some(at) = wall.instant(date?, time?) else {
        check.fault(time_field, "fault.clock_gap", &[]);
        return None;
    };
    if at <= now {
        check.fault(time_field, "fault.agreed_past", &[]);
    } else if wall.day(at) > farthest(wall.day(now)) {
        check.fault(date_field, "fault.wish_far", &[]);
    }
    Some(at)
}

/// `POST /studio/wishes/{id}/call-off`
pub async fn call_off(
    State(studio): State<Shared>,
    Id(id): Id,
    SignedForm { signed, form }: SignedForm,
) -> Result<Redirect, Refusal> {
    only(&form, &[])?;
    write::<Waiting, _>(&studio, id, move |record| {
        events::call_off(record, id, signed.artist, signed.now)
    })
    .await?;
    Ok(back::<Waiting>(id))
}

fn held(studio: &Studio, id: Uuid) -> Result<Held, Refusal> {
    studio
        .record
        .read(|record| wishes::by_id(record, id))?
        .ok_or(Refusal::NotFound)
}

fn screen(
    studio: &Studio,
    signed: &SignedIn,
    id: Uuid,
    form: Filled,
) -> Result<Html<String>, Refusal> {
    let particulars = pages::artist::particulars(studio)?;
    let wall = pages::artist::wall(studio, &particulars);
    let (held, visit) = studio
        .record
        .read(|record| {
            let Some(held) = wishes::by_id(record, id)? else {
                return Ok(None);
            };
            Ok(
                pages::visits::read(record, held.visit, &particulars.language)?
                    .map(|visit| (held, visit)),
            )
        })?
        .ok_or(Refusal::NotFound)?;
    let moment = |at| wall.moment(at, signed.now);
    let view = WishView {
        id,
        received: moment(held.received_at),
        times: pages::wishes::times(&held.wish, &wall, signed.now),
        words: held.wish.words.clone(),
        reach: held.wish.reach.clone(),
        answers: pages::wishes::answers(&held, &wall, signed.now),
        agreed: held
            .agreed()
            .map(|at| pages::wishes::appointment(at, &wall, signed.now)),
        settled: held.settled_at().map(moment),
        visit: pages::visits::view(studio, &particulars, visit, &wall, signed.now),
        answer_id: form
            .value("answer_id")
            .parse()
            .unwrap_or_else(|_| Uuid::new_v4()),
        form,
    };
    pages::artist::screen(studio, &particulars, signed, Screen::Wish(Box::new(view)))
}
