//! When the studio replies, by its own settings or by the content's figures, and what is overdue by that.

use chrono::{DateTime, TimeDelta, Utc};
use shared_types::{catalogue::urgency::UrgencyRules, desk::Desk, urgency::Level, words::Words};

use super::lengths::{hours, span};
use crate::{
    record::{RecordError, reports::Held, versions},
    state::Studio,
};

/// Reply times, and sentences to begin with.
pub struct Replies<'a> {
    rules: &'a UrgencyRules,
    pub desk: Desk,
}

/// How long a report has waited.
#[derive(Default)]
pub struct Waits {
    /// In a sentence; empty when nobody waits.
    pub said: String,
    pub overdue: bool,
}

impl<'a> Replies<'a> {
    pub fn read(studio: &'a Studio) -> Result<Self, RecordError> {
        let desk = studio.record.read(versions::current::<Desk>)?;
        Ok(Self::with(studio, desk))
    }

    pub fn with(studio: &'a Studio, desk: Desk) -> Self {
        Self {
            rules: &studio.content.catalogue.urgency,
            desk,
        }
    }

    /// Whole hours within which a report of this level is usually answered.
    pub fn within(&self, level: Level) -> u32 {
        let own = self.desk.hours(level);
        own.unwrap_or_else(|| self.rules.reply_hours(level))
    }

    fn is_overdue(&self, level: Level, since: DateTime<Utc>, now: DateTime<Utc>) -> bool {
        now - since > TimeDelta::hours(self.within(level).into())
    }

    /// How a report waits for an answer; nothing once it has one, or is settled.
    pub fn of(&self, held: &Held, words: &Words, now: DateTime<Utc>) -> Waits {
        if !held.waiting || held.is_answered() {
            return Waits::default();
        }
        let (level, since) = (held.level(), held.waits_since());
        Waits {
            said: self.waits(words, level, since, now),
            overdue: self.is_overdue(level, since, now),
        }
    }

    /// As the studio set them. What a client is told to do never waits for these: where they cannot be read, the usual times
    /// stand.
    pub fn or_usual(studio: &'a Studio) -> Self {
        Self::read(studio).unwrap_or_else(|error| {
            tracing::error!(%error, "the studio's reply times could not be read");
            Self::with(studio, Desk::default())
        })
    }

    /// When the studio usually replies to a report of a level, in a sentence for the client.
    pub fn promised(&self, words: &Words, studio: &str, level: Level) -> String {
        let time = hours(words, self.within(level));
        words.fill(
            "client.trouble.reply",
            &[("studio", studio), ("time", &time)],
        )
    }

    /// "Waits 5 hours", and that it is overdue.
    fn waits(
        &self,
        words: &Words,
        level: Level,
        since: DateTime<Utc>,
        now: DateTime<Utc>,
    ) -> String {
        let time = span(words, now - since);
        let within = hours(words, self.within(level));
        let key = if self.is_overdue(level, since, now) {
            "artist.inbox.overdue"
        } else if now - since < TimeDelta::minutes(1) {
            "artist.inbox.waits_now"
        } else {
            "artist.inbox.waits"
        };
        words.fill(key, &[("time", &time), ("within", &within)])
    }

    /// The studio's own sentences to begin an answer with, or those of the language.
    pub fn beginnings(&self, words: &Words) -> Vec<String> {
        match &self.desk.beginnings {
            Some(own) => own.clone(),
            None => BEGINNINGS
                .iter()
                .map(|name| words.say(&format!("beginning.{name}")).to_owned())
                .collect(),
        }
    }
}

/// The sentences that serve until the studio has its own.
const BEGINNINGS: [&str; 5] = ["thank", "leave_off", "pharmacist", "today", "ring"];

#[cfg(test)]
mod tests {
    use content::Content;

    use super::*;

    #[test]
    fn what_waits_longer_than_the_studio_takes_is_overdue_and_says_so() {
        let content = Content::built_in().unwrap();
        let words = &content.languages["en"];
        let mut replies = Replies {
            rules: &content.catalogue.urgency,
            desk: Desk::default(),
        };
        let now = DateTime::UNIX_EPOCH;
        let trade = replies.within(Level::Studio);
        assert!(trade > 0);
        let since = |hours: u32| now - TimeDelta::hours(hours.into());
        assert!(!replies.is_overdue(Level::Studio, since(trade), now));
        assert!(replies.is_overdue(Level::Studio, since(trade) - TimeDelta::minutes(1), now));
        replies.desk.set_hours(Level::Studio, Some(2));
        assert!(!replies.is_overdue(Level::Studio, since(2), now));
        let said = replies.waits(words, Level::Studio, since(3), now);
        assert!(
            said.contains("3 hours") && said.contains("2 hours"),
            "{said}"
        );
        assert!(said.to_lowercase().contains("overdue"), "{said}");
        assert_eq!(
            replies.waits(words, Level::Studio, since(2), now),
            "waits 2 hours"
        );
        for seconds in [0, 59] {
            let since = now - TimeDelta::seconds(seconds);
            assert_eq!(
                replies.waits(words, Level::Studio, since, now),
                "just came in"
            );
        }
        let since = now - TimeDelta::minutes(1);
        assert_eq!(
            replies.waits(words, Level::Studio, since, now),
            "waits 1 minute"
        );
    }

    #[test]
    fn the_more_urgent_is_never_given_longer() {
        let content = Content::built_in().unwrap();
        let rules = &content.catalogue.urgency;
        let hours: Vec<u32> = Level::ALL
            .iter()
            .map(|one| rules.reply_hours(*one))
            .collect();
        assert!(hours.iter().all(|hours| *hours > 0), "{hours:?}");
        assert!(hours.windows(2).all(|two| two[0] >= two[1]), "{hours:?}");
    }
}
