//! The clock on the studio's wall: instants as they are written there, in the page's language.

use chrono::{DateTime, NaiveDate, NaiveDateTime, NaiveTime, TimeDelta, TimeZone, Utc};
use chrono_tz::Tz;
use shared_types::{dates, page::client::Moment, words::Words};

use super::lengths::rounded_down;
use crate::record::versions::Held;

/// A language and a time zone.
#[derive(Clone, Copy)]
pub struct Wall<'a> {
    pub words: &'a Words,
    pub zone: Tz,
}

impl Wall<'_> {
    /// The studio's date and time.
    pub fn local(&self, at: DateTime<Utc>) -> NaiveDateTime {
        at.with_timezone(&self.zone).naive_local()
    }

    /// The studio's date.
    pub fn day(&self, at: DateTime<Utc>) -> NaiveDate {
        self.local(at).date()
    }

    /// The instant of a time on the wall: of two when the clocks go back, the earlier; `None` when they skip it.
    pub fn instant(&self, date: NaiveDate, time: NaiveTime) -> Option<DateTime<Utc>> {
        let local = self.zone.from_local_datetime(&date.and_time(time));
        local.earliest().map(|at| at.to_utc())
    }

    /// An instant, written with as much of the date as it needs beside another instant.
    pub fn moment(&self, at: DateTime<Utc>, beside: DateTime<Utc>) -> Moment {
        Moment {
            at,
            text: dates::moment(self.words, self.local(at), self.day(beside)),
        }
    }

    /// "5 hours after the visit".
    pub fn after_visit(&self, at: DateTime<Utc>, finished: DateTime<Utc>) -> String {
        if at - finished < TimeDelta::minutes(1) {
            return self.words.say("artist.report.after_visit_now").to_owned();
        }
        let (unit, n) = rounded_down(at - finished);
        self.words
            .count(&format!("artist.report.after_visit.{unit}"), n)
    }

    /// "Last changed Thursday 14:30 by Ilse"; empty when nothing was set yet.
    pub fn changed<T>(&self, held: Option<&Held<T>>, now: DateTime<Utc>) -> String {
        held.map_or_else(String::new, |held| {
            let when = self.moment(held.made_at, now).text;
            self.words.fill(
                "artist.practice.changed",
                &[("when", &when), ("who", &held.made_by)],
            )
        })
    }
}
