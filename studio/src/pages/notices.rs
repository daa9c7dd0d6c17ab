//! How the studio is told at once, as a screen.

use chrono::{DateTime, Utc};
use shared_types::{
    page::{
        form::Filled,
        notices::{NoticesScreen, WayState},
    },
    words::Words,
};

use super::wall::Wall;
use crate::{
    notices::{
        Way,
        settings::{NoticeSettings, Security},
    },
    record::{
        RecordError,
        notices::{
            attempts::{self, Last},
            trouble, waiting_count,
        },
        versions::{self, Held},
    },
    state::Studio,
};

pub fn screen(
    studio: &Studio,
    wall: &Wall<'_>,
    form: Filled,
    now: DateTime<Utc>,
) -> Result<NoticesScreen, RecordError> {
    let words = wall.words;
    let (held, ways) = studio.record.read(|record| {
        let held: Option<Held<NoticeSettings>> = versions::latest(record)?;
        let mut ways = Vec::new();
        for way in Way::ALL {
            ways.push(Stands {
                last: attempts::last(record, way)?,
                waiting: waiting_count(record, way)?,
                given_up: trouble::given_up(record, way)?,
                troubled: trouble::is_troubled(record, way)?,
            });
        }
        Ok((held, ways))
    })?;
    let changed = wall.changed(held.as_ref(), now);
    let settings = held.map(|held| held.body).unwrap_or_default();
    let mut states = Way::ALL
        .into_iter()
        .zip(ways)
        .map(|(way, stands)| state(wall, settings.has(way), stands, now));
    let mail = &settings.mail;
    Ok(NoticesScreen {
        form,
        changed,
        securities: Security::ALL
            .into_iter()
            .map(|one| {
                let key = format!("artist.notices.security_{}", one.term());
                (one.term().to_owned(), words.say(&key).to_owned())
            })
            .collect(),
        password_kept: mail.as_ref().is_some_and(|mail| mail.password.is_some()),
        secret_kept: settings.webhook.is_some(),
        mail: states.next().unwrap_or_default(),
        webhook: states.next().unwrap_or_default(),
    })
}

/// What stands above the artist's lists while notices do not get through; empty when they do, or none are sent.
pub fn not_told(studio: &Studio, words: &Words) -> Result<String, RecordError> {
    let ways = studio.record.read(trouble::ways)?;
    let name = |way: &Way| words.say(&format!("artist.notices.{way}")).to_owned();
    let names: Vec<String> = ways.iter().map(name).collect();
    Ok(if names.is_empty() {
        String::new()
    } else {
        words.fill("artist.notices.not_told", &[("ways", &words.list(&names))])
    })
}

/// How a way stands.
struct Stands {
    last: Option<Last>,
    waiting: u32,
    given_up: u32,
    troubled: bool,
}

fn state(wall: &Wall<'_>, on: bool, stands: Stands, now: DateTime<Utc>) -> WayState {
    let words = wall.words;
    let text = |key: &str| words.say(&format!("artist.notices.{key}")).to_owned();
    let when = |at| wall.moment(at, now).text;
    let mut said = Vec::new();
    if !on {
        said.push(text("off"));
    }
    match stands.last {
        None if on => said.push(text("nothing_yet")),
        None => {}
        Some(last) if last.sent => {
            said.push(words.fill("artist.notices.went_out", &[("when", &when(last.at))]));
        }
        Some(last) => {
            said.push(words.fill("artist.notices.did_not", &[("when", &when(last.at))]));
            let fault = format!("artist.notices.fault.{}", last.fault);
            said.push(words.say(&fault).to_owned());
            if !last.detail.is_empty() {
                said.push(words.fill("artist.notices.detail", &[("detail", &last.detail)]));
            }
            match last.next_at {
                Some(next) if on => said.push(words.fill(
                    "artist.notices.again",
                    &[("n", &last.times.to_string()), ("when", &when(next))],
                )),
                Some(_) => {}
                None => said.push(text("given_up")),
            }
        }
    }
    if on && stands.waiting > 0 {
        said.push(words.count("artist.notices.waiting", i64::from(stands.waiting)));
    }
    if on && stands.given_up > 0 {
        said.push(words.count("artist.notices.lost", i64::from(stands.given_up)));
    }
    WayState {
        on,
        troubled: on && stands.troubled,
        said,
    }
}
