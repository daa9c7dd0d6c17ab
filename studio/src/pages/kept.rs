//! Clients' pages, kept for a moment after they were drawn: drawing one and making it small takes some two
//! milliseconds, and a phone that loads, registers its worker and keeps its copy asks three times in as many seconds.
//!
//! A kept page is shown only while the record's [`Stamp`] for it is the same and its link lives, both of which are
//! read anew each time. Only the clock may be behind, by no more than [`LONGEST`] and never across a caution's end.

use std::{
    collections::HashMap,
    sync::{Arc, Mutex, MutexGuard, OnceLock, PoisonError},
};

use axum::{
    body::Bytes,
    http::{HeaderValue, header},
    response::{Html, IntoResponse, Response},
};
use chrono::{DateTime, TimeDelta, Utc};
use shared_types::page::client::ClientPage;
use uuid::Uuid;

use crate::{compress::Encoding, record::stamp::Stamp};

/// How long a page is kept at most.
const LONGEST: TimeDelta = TimeDelta::seconds(30);
/// Pages kept at one time; each takes some 60 KB.
const MOST: usize = 500;

/// A link, and the language that its page is in.
pub type Which = (Uuid, String);

/// The pages.
#[derive(Default)]
pub struct KeptPages(Mutex<HashMap<Which, Arc<KeptPage>>>);

/// A page as it was drawn, and as it was made small for whoever asked.
pub struct KeptPage {
    stamp: Stamp,
    until: DateTime<Utc>,
    html: Bytes,
    brotli: OnceLock<Option<Bytes>>,
    gzip: OnceLock<Option<Bytes>>,
}

impl KeptPages {
    /// The page of a link in a language, if it is still true.
    pub fn find(&self, which: &Which, stamp: Stamp, now: DateTime<Utc>) -> Option<Arc<KeptPage>> {
        self.pages()
            .get(which)
            .filter(|page| page.stamp == stamp && now < page.until)
            .cloned()
    }

    /// Keeps a page that was drawn just now.
    pub fn keep(
        &self,
        which: Which,
        stamp: Stamp,
        until: DateTime<Utc>,
        html: String,
        now: DateTime<Utc>,
    ) -> Arc<KeptPage> {
        let page = Arc::new(KeptPage {
            stamp,
            until,
            html: html.into(),
            brotli: OnceLock::new(),
            gzip: OnceLock::new(),
        });
        let mut pages = self.pages();
        if pages.len() >= MOST {
            pages.retain(|_, page| now < page.until);
        }
        // More than that within half a minute: then keeping pages does not help, and must not cost memory.
        if pages.len() < MOST {
            pages.insert(which, page.clone());
        }
        page
    }

    fn pages(&self) -> MutexGuard<'_, HashMap<Which, Arc<KeptPage>>> {
        // Nothing is half done when a thread panics with the lock: the map is only looked at and added to.
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// Until when a page that was drawn at `page.now` stays true.
pub fn true_until(page: &ClientPage) -> DateTime<Utc> {
    let longest = page.now + LONGEST;
    let ends = page
        .cautions
        .iter()
        .map(|caution| caution.until.at)
        .filter(|end| *end > page.now);
    ends.min().map_or(longest, |end| end.min(longest))
}

impl KeptPage {
    /// The page, as small as the asker takes it.
    pub fn answer(&self, accepted: Option<Encoding>) -> Response {
        let small = accepted.and_then(|encoding| Some((self.encoded(encoding)?, encoding)));
        let vary = [(header::VARY, HeaderValue::from_static("accept-encoding"))];
        match small {
            Some((bytes, encoding)) => (
                vary,
                [(header::CONTENT_ENCODING, encoding.header())],
                Html(bytes),
            )
                .into_response(),
            None => (vary, Html(self.html.clone())).into_response(),
        }
    }

    fn encoded(&self, encoding: Encoding) -> Option<Bytes> {
        let place = match encoding {
            Encoding::Brotli => &self.brotli,
            Encoding::Gzip => &self.gzip,
        };
        place
            .get_or_init(|| encoding.encode(&self.html).ok().map(Bytes::from))
            .clone()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn page(number: u128) -> Which {
        (Uuid::from_u128(number), "en".to_owned())
    }

    #[test]
    fn a_page_is_shown_again_until_its_time_is_over() {
        let pages = KeptPages::default();
        let (which, now) = (page(1), DateTime::UNIX_EPOCH);
        let until = now + LONGEST;
        pages.keep(
            which.clone(),
            Stamp::default(),
            until,
            "page".to_owned(),
            now,
        );
        assert!(
            pages
                .find(&which, Stamp::default(), until - TimeDelta::seconds(1))
                .is_some()
        );
        assert!(pages.find(&which, Stamp::default(), until).is_none());
        assert!(pages.find(&page(2), Stamp::default(), now).is_none());
        let in_french = (which.0, "fr".to_owned());
        assert!(pages.find(&in_french, Stamp::default(), now).is_none());
    }

    #[test]
    fn no_more_are_kept_than_there_is_room_for() {
        let pages = KeptPages::default();
        let now = DateTime::UNIX_EPOCH;
        for number in 0..=MOST as u128 {
            pages.keep(
                page(number),
                Stamp::default(),
                now + LONGEST,
                String::new(),
                now,
            );
        }
        assert_eq!(pages.pages().len(), MOST);
        // Once their time is over there is room again.
        let later = now + LONGEST;
        pages.keep(
            page(u128::MAX),
            Stamp::default(),
            later + LONGEST,
            String::new(),
            later,
        );
        assert_eq!(pages.pages().len(), 1);
    }
}
