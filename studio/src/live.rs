//! The open screens that are told what comes in.

use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use tokio::sync::{Notify, watch};

/// Streams that one session may have open. A browser opens only six connections to a host over HTTP/1.1: were each of its
/// tabs to hold one, the next page would not load (WHATWG HTML, server-sent events, authoring notes).
pub const MOST_STREAMS: usize = 3;

/// Every open stream.
#[derive(Default)]
pub struct Live {
    streams: Mutex<Vec<Entry>>,
    ended: watch::Sender<bool>,
}

struct Entry {
    session: [u8; 32],
    elsewhere: Arc<Notify>,
}

/// One open stream. It is taken off the list when this is dropped.
pub struct Stream {
    live: Arc<Live>,
    /// Rung when another screen of the same session takes its place.
    pub elsewhere: Arc<Notify>,
    /// True once the studio stops.
    pub ended: watch::Receiver<bool>,
}

impl Live {
    /// Opens a stream for a session; the oldest makes way when there are too many.
    pub fn open(self: &Arc<Self>, session: [u8; 32]) -> Stream {
        let elsewhere = Arc::new(Notify::new());
        let mut streams = self.streams();
        let of_session = |entry: &&Entry| entry.session == session;
        if streams.iter().filter(of_session).count() >= MOST_STREAMS
            && let Some(oldest) = streams.iter().position(|one| one.session == session)
        {
            streams.remove(oldest).elsewhere.notify_one();
        }
        streams.push(Entry {
            session,
            elsewhere: elsewhere.clone(),
        });
        drop(streams);
        Stream {
            live: self.clone(),
            elsewhere,
            ended: self.ended.subscribe(),
        }
    }

    /// Ends every stream: the studio stops.
    pub fn end(&self) {
        self.ended.send_replace(true);
    }

    fn streams(&self) -> MutexGuard<'_, Vec<Entry>> {
        // Nothing is half done when a thread panics with the lock: entries are whole.
        self.streams.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

impl Drop for Stream {
    fn drop(&mut self) {
        self.live
            .streams()
            .retain(|entry| !Arc::ptr_eq(&entry.elsewhere, &self.elsewhere));
    }
}
