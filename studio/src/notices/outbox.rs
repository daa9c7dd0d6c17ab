//! The task that sends what waits, one for each way, so that neither holds the other up.

use std::time::Duration;

use chrono::Utc;
use rusqlite::Connection;
use tokio::sync::watch;
use uuid::Uuid;

use super::{
    Way,
    fault::{Fault, Kind},
    mail::Letter,
    pauses::Pauses,
    settings::NoticeSettings,
    text::Text,
    webhook,
};
use crate::{
    record::{
        Record, RecordError,
        notices::{
            self, Waiting,
            attempts::{self, Outcome},
            recipients,
        },
        studio::current,
        versions,
    },
    reload::Current,
    state::Studio,
};

/// How long one attempt, or with mail the part of it for one address, may take in all.
const PATIENCE: Duration = Duration::from_secs(45);
/// Looked at again after this long even when nothing is known to have changed: another program may have.
const LOOK_AGAIN: Duration = Duration::from_secs(60);

/// Sends what waits for as long as the studio runs.
pub fn start(current: &Current, pauses: Pauses) {
    // For webhooks; it fails only when that was done before, which is as well.
    let _ = rustls::crypto::ring::default_provider().install_default();
    for way in Way::ALL {
        tokio::spawn(send_all(current.clone(), way, pauses));
    }
}

async fn send_all(serving: Current, way: Way, pauses: Pauses) {
    let mut commits = serving.studio().record.commits();
    loop {
        commits.mark_unchanged();
        let studio = serving.studio();
        let wait = match send_next(&studio, way, pauses).await {
            Ok(wait) => wait,
            Err(error) => {
                tracing::error!(%error, %way, "the outbox could not be read");
                pauses.first
            }
        };
        drop(studio);
        if !wait.is_zero() {
            sleep_or_change(&mut commits, wait).await;
        }
    }
}

/// Sleeps, or until something was added to the record.
async fn sleep_or_change(commits: &mut watch::Receiver<u64>, wait: Duration) {
    tokio::select! {
        () = tokio::time::sleep(wait) => {}
        changed = commits.changed() => {
            // The record is never closed before this task ends.
            if changed.is_err() {
                tokio::time::sleep(wait).await;
            }
        }
    }
}

/// Sends the notice whose turn has come. Returns how long until there may be more to do.
async fn send_next(studio: &Studio, way: Way, pauses: Pauses) -> Result<Duration, RecordError> {
    let (next, settings) = studio
        .record
        .read(|record| Ok((notices::next(record, way)?, versions::current(record)?)))?;
    let Some(notice) = next else {
        return Ok(LOOK_AGAIN);
    };
    let now = Utc::now();
    if let Ok(wait) = (notice.next_at - now).to_std()
        && !wait.is_zero()
    {
        return Ok(wait.min(LOOK_AGAIN));
    }
    let settings: NoticeSettings = settings;
    let outcome = if !notice.needed || !settings.has(way) {
        Outcome::NotNeeded
    } else {
        match send(studio, &settings, way, &notice, pauses).await {
            Ok(()) => Outcome::Sent,
            Err(fault) => failed(fault, &notice, pauses),
        }
    };
    match &outcome {
        Outcome::Sent => tracing::info!(%way, "a notice went out"),
        Outcome::Failed { fault, .. } => {
            tracing::warn!(%way, fault, "a notice did not go out; it is tried again");
        }
        Outcome::GivenUp { fault, .. } => tracing::error!(%way, fault, "a notice was given up"),
        Outcome::NotNeeded => tracing::info!(%way, "a notice is not needed any more"),
    }
    note(&studio.record, notice.id, outcome, pauses).await;
    Ok(Duration::ZERO)
}

fn failed(fault: Fault, notice: &Waiting, pauses: Pauses) -> Outcome {
    let (kind, detail) = (fault.kind.term().to_owned(), fault.detail);
    match pauses.next(notice.made_at, notice.attempts + 1, Utc::now()) {
        Some(next_at) => Outcome::Failed {
            fault: kind,
            detail,
            next_at,
        },
        None => Outcome::GivenUp {
            fault: kind,
            detail,
        },
    }
}

/// Notes what came of an attempt, however long the record refuses: what the other side has taken is not to be sent again
/// because the disk was full.
async fn note(record: &Record, id: Uuid, outcome: Outcome, pauses: Pauses) {
    until_noted(record, pauses, move |record| {
        attempts::note(record, id, &outcome, Utc::now())
    })
    .await;
}

async fn until_noted(
    record: &Record,
    pauses: Pauses,
    note: impl Fn(&Connection) -> Result<(), RecordError> + Clone + Send + 'static,
) {
    let mut tries = 0;
    loop {
        let note = note.clone();
        let noted: Result<(), RecordError> = record.write(move |record| note(record)).await;
        let Err(error) = noted else {
            return;
        };
        tries += 1;
        tracing::error!(%error, "what became of a notice could not be noted");
        tokio::time::sleep(pauses.after(tries)).await;
    }
}

async fn send(
    studio: &Studio,
    settings: &NoticeSettings,
    way: Way,
    notice: &Waiting,
    pauses: Pauses,
) -> Result<(), Fault> {
    let unusable = || Fault::new(Kind::Settings, "");
    let particulars = studio.record.read(current).map_err(|_| unusable())?;
    let (_, words) = studio.own_words(particulars.as_ref());
    let text = Text::of(notice, &studio.public_url, words);
    let (key, now) = (&studio.link_key, Utc::now());
    match (way, &settings.mail, &settings.webhook) {
        (Way::Mail, Some(mail), _) => {
            let letter = Letter::of(mail, key, notice.id, &text, now)?;
            send_letter(&studio.record, notice.id, &letter, pauses).await
        }
        (Way::Webhook, _, Some(hook)) => {
            in_time(webhook::send(hook, key, notice, &text, now)).await
        }
        _ => Err(unusable()),
    }
}

/// To every address that has not had it, whatever becomes of the others. Who has it is noted at once.
async fn send_letter(
    record: &Record,
    notice: Uuid,
    letter: &Letter,
    pauses: Pauses,
) -> Result<(), Fault> {
    let told = record.read(|record| recipients::told(record, notice));
    let mut told = told.map_err(|error| Fault::of(Kind::Settings, &error))?;
    let mut first = None;
    for address in letter.addresses() {
        let name = address.to_string();
        if told.contains(&name) {
            continue;
        }
        match in_time(letter.send_to(address)).await {
            Ok(()) => {
                told.push(name.clone());
                until_noted(record, pauses, move |record| {
                    recipients::note(record, notice, &name, Utc::now())
                })
                .await;
            }
            Err(fault) if fault.kind.is_about_an_address() => {
                first.get_or_insert(fault);
            }
            Err(fault) => return Err(fault),
        }
    }
    first.map_or(Ok(()), Err)
}

async fn in_time(sending: impl Future<Output = Result<(), Fault>>) -> Result<(), Fault> {
    let sent = tokio::time::timeout(PATIENCE, sending).await;
    sent.unwrap_or_else(|_| Err(Fault::new(Kind::TooSlow, "")))
}
