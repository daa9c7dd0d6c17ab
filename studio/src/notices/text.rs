//! What a notice says, in the studio's language: that something waits, how urgent it is, and where to look.

use shared_types::{urgency::Level, words::Words};
use uuid::Uuid;

use crate::{links::address::PublicUrl, record::notices::Waiting};

/// A notice in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Text {
    pub subject: String,
    pub link: String,
    /// Whole lines.
    pub body: String,
}

impl Text {
    pub fn of(notice: &Waiting, studio: &PublicUrl, words: &Words) -> Self {
        let ways = format!("{studio}/studio/notices");
        let said = match notice.about {
            Some((report, level)) => Self::of_report(report, level, studio, words),
            None => Self {
                subject: words.say("told_at_once.try_subject").to_owned(),
                link: ways.clone(),
                body: words.say("told_at_once.try_body").to_owned(),
            },
        };
        let why = words.fill("told_at_once.why", &[("link", &ways)]);
        Self {
            body: format!("{}\n\n{why}\n", said.body),
            ..said
        }
    }

    fn of_report(report: Uuid, level: Level, studio: &PublicUrl, words: &Words) -> Self {
        let key = format!("told_at_once.level.{level}");
        let link = format!("{studio}/studio/reports/{report}");
        let subject = words.fill("told_at_once.subject", &[("level", words.say(&key))]);
        let look = words.fill("told_at_once.look", &[("link", &link)]);
        Self {
            body: format!("{subject}\n{look}"),
            subject,
            link,
        }
    }
}
