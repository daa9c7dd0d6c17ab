//! When the studio replies to reports, and with which sentences it begins.

use axum::{
    extract::State,
    http::StatusCode,
    response::{Html, IntoResponse, Redirect, Response},
};
use shared_types::{
    desk::{BEGINNING_LONGEST, BEGINNINGS_MAX, Desk, REPLY_LONGEST},
    page::{artist::Screen, form::Filled, reports::DeskScreen},
    urgency::Level,
};

use super::check::Check;
use crate::{
    error::Refusal,
    handlers::posted::only,
    pages::{self, desk::Replies, lengths::hours},
    record::versions,
    security::session::{SignedForm, SignedIn},
    state::{Shared, Studio},
};

const HOURS: [(Level, &str); 4] = [
    (Level::Emergency, "hours_emergency"),
    (Level::SameDay, "hours_same_day"),
    (Level::Studio, "hours_studio"),
    (Level::Expected, "hours_expected"),
];

/// `GET /studio/reports/replies`
pub async fn show(State(studio): State<Shared>, signed: SignedIn) -> Result<Html<String>, Refusal> {
    let particulars = pages::artist::particulars(&studio)?;
    let replies = Replies::read(&studio)?;
    let mut form = Filled::default();
    for (level, field) in HOURS {
        if let Some(hours) = replies.desk.hours(level) {
            form.put(field, hours.to_string());
        }
    }
    let beginnings = replies.beginnings(studio.words(&particulars.language).1);
    form.put("beginnings", beginnings.join("\n"));
    screen(&studio, &signed, form)
}

/// `POST /studio/reports/replies`: a new version.
pub async fn send(
    State(studio): State<Shared>,
    SignedForm { signed, mut form }: SignedForm,
) -> Result<Response, Refusal> {
    let fields: Vec<&str> = HOURS
        .iter()
        .map(|(_, field)| *field)
        .chain(["beginnings"])
        .collect();
    only(&form, &fields)?;
    let particulars = pages::artist::particulars(&studio)?;
    let words = studio.words(&particulars.language).1;
    let mut check = Check::new(&form, words);
    let mut desk = read(&mut check, &form);
    let faults = check.faults();
    if !faults.is_empty() {
        form.blame_all(faults);
        let again = screen(&studio, &signed, form)?;
        return Ok((StatusCode::UNPROCESSABLE_ENTITY, again).into_response());
    }
    // As long as nothing is changed in them, the sentences follow the language.
    let usual = Replies::with(&studio, Desk::default()).beginnings(words);
    desk.beginnings = desk.beginnings.filter(|own| *own != usual);
    let (artist, now) = (signed.artist, signed.now);
    studio
        .record
        .write(move |record| versions::add(record, &desk, artist, now))
        .await?;
    Ok(Redirect::to("/studio/reports/replies").into_response())
}

fn read(check: &mut Check<'_>, form: &Filled) -> Desk {
    let mut desk = Desk::default();
    for (level, field) in HOURS {
        let given = form.value(field).trim();
        if given.is_empty() {
            continue;
        }
        match given.parse::<u32>() {
            Ok(hours) if (1..=REPLY_LONGEST).contains(&hours) => {
                desk.set_hours(level, Some(hours));
            }
            _ => check.fault(
                field,
                "fault.hours",
                &[("most", &REPLY_LONGEST.to_string())],
            ),
        }
    }
    let lines = form.value("beginnings").lines().map(str::trim);
    let own: Vec<String> = lines
        .filter(|line| !line.is_empty())
        .map(str::to_owned)
        .collect();
    let longest = BEGINNING_LONGEST.to_string();
    if own
        .iter()
        .any(|line| line.chars().count() > BEGINNING_LONGEST)
    {
        check.fault("beginnings", "fault.beginning_long", &[("max", &longest)]);
    }
    if own.len() > BEGINNINGS_MAX {
        let most = BEGINNINGS_MAX.to_string();
        check.fault("beginnings", "fault.beginnings_many", &[("most", &most)]);
    }
    desk.beginnings = Some(own);
    desk
}

fn screen(studio: &Studio, signed: &SignedIn, form: Filled) -> Result<Html<String>, Refusal> {
    let particulars = pages::artist::particulars(studio)?;
    let wall = pages::artist::wall(studio, &particulars);
    let words = wall.words;
    let held = studio.record.read(versions::latest::<Desk>)?;
    let usual = Replies::with(studio, Desk::default());
    let screen = DeskScreen {
        form,
        changed: wall.changed(held.as_ref(), signed.now),
        levels: Level::ALL
            .iter()
            .rev()
            .map(|level| {
                let time = hours(words, usual.within(*level));
                (*level, words.fill("artist.desk.usual", &[("time", &time)]))
            })
            .collect(),
    };
    pages::artist::screen(studio, &particulars, signed, Screen::Desk(screen))
}
