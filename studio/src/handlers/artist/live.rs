//! What waits, told to an open screen for as long as it is open (server-sent events, WHATWG HTML).

use std::{convert::Infallible, time::Duration};

use axum::{
    extract::State,
    http::{HeaderMap, HeaderName, HeaderValue, header},
    response::{
        IntoResponse, Response, Sse,
        sse::{Event, KeepAlive},
    },
};
use chrono::Utc;
use futures_util::stream::unfold;
use shared_types::wire::Waiting;
use tokio::sync::watch;

use crate::{
    cache::Cache,
    error::Refusal,
    live::Stream,
    pages,
    record::{RecordError, live::standing, sessions, studio::current},
    security::session::hash,
    state::Shared,
};

/// A line now and then, so that nothing on the way takes the connection for a dead one.
const STILL_HERE: Duration = Duration::from_secs(20);
/// How often it is looked whether the session still holds, when nothing happens.
const LOOK_AGAIN: Duration = Duration::from_secs(30);
/// How long a browser waits before it asks again.
const ASK_AGAIN: Duration = Duration::from_secs(3);

/// `GET /studio/live`: events `waiting`, each a [`Waiting`] as JSON, the first at once; `elsewhere` when this stream makes way
/// for another of the same session. It ends with the session, which it does not keep alive: a screen that nobody touches is
/// signed out as before.
pub async fn tell(State(studio): State<Shared>, headers: HeaderMap) -> Result<Response, Refusal> {
    let session = studio.cookie.read(&headers).map(hash);
    let session = session.ok_or(Refusal::NotSignedIn)?;
    let open = Open {
        commits: studio.record.commits(),
        stream: studio.live.open(session),
        studio,
        session,
        told: None,
        over: false,
    };
    if !open.is_signed_in()? {
        return Err(Refusal::NotSignedIn);
    }
    let events = unfold(open, |mut open| async move {
        let event = open.next().await?;
        Some((Ok::<_, Infallible>(event), open))
    });
    let events = Sse::new(events).keep_alive(KeepAlive::new().interval(STILL_HERE));
    let headers = [
        (header::CACHE_CONTROL, Cache::Nobody.header()),
        // Proxies that gather an answer before they pass it on are asked not to.
        (
            HeaderName::from_static("x-accel-buffering"),
            HeaderValue::from_static("no"),
        ),
    ];
    Ok((headers, events).into_response())
}

/// A screen that listens.
struct Open {
    studio: Shared,
    session: [u8; 32],
    commits: watch::Receiver<u64>,
    stream: Stream,
    /// What it was told last.
    told: Option<Waiting>,
    /// Nothing more is told.
    over: bool,
}

impl Open {
    fn is_signed_in(&self) -> Result<bool, RecordError> {
        let holding = |record: &_| sessions::holding(record, &self.session, Utc::now());
        Ok(self.studio.record.look(holding)?.is_some())
    }

    fn waiting(&self) -> Result<Waiting, RecordError> {
        let (standing, particulars) = self
            .studio
            .record
            .read(|record| Ok((standing(record)?, current(record)?)))?;
        let (_, words) = self.studio.own_words(particulars.as_ref());
        Ok(pages::live::waiting(&standing, words))
    }

    /// The next event; `None` when the stream ends.
    async fn next(&mut self) -> Option<Event> {
        loop {
            self.commits.mark_unchanged();
            if self.over || *self.stream.ended.borrow() || !self.holds() {
                return None;
            }
            match self.waiting() {
                Ok(waiting) if self.told.as_ref() != Some(&waiting) => {
                    let event = Event::default()
                        .event("waiting")
                        .retry(ASK_AGAIN)
                        .json_data(&waiting);
                    self.told = Some(waiting);
                    return event.ok();
                }
                Ok(_) => {}
                Err(error) => tracing::error!(%error, "an open screen could not be told"),
            }
            tokio::select! {
                changed = self.commits.changed() => changed.ok()?,
                changed = self.stream.ended.changed() => changed.ok()?,
                () = tokio::time::sleep(LOOK_AGAIN) => {}
                () = self.stream.elsewhere.notified() => {
                    self.over = true;
                    return Some(Event::default().event("elsewhere").data("-"));
                }
            }
        }
    }

    fn holds(&self) -> bool {
        self.is_signed_in().unwrap_or_else(|error| {
            tracing::error!(%error, "a session could not be looked up");
            false
        })
    }
}
