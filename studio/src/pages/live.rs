//! What waits, in words.

use shared_types::{
    wire::{News, Waiting},
    words::Words,
};

use crate::record::live::Standing;

pub fn waiting(standing: &Standing, words: &Words) -> Waiting {
    let report = standing.last_report.map(|(id, level)| {
        let key = format!("told_at_once.level.{level}");
        News {
            said: words.fill("artist.live.report", &[("level", words.say(&key))]),
            address: format!("/studio/reports/{id}"),
            level: Some(level),
        }
    });
    let wish = standing.last_wish.map(|id| News {
        said: words.say("artist.live.wish").to_owned(),
        address: format!("/studio/wishes/{id}"),
        level: None,
    });
    Waiting {
        reports: standing.reports,
        wishes: standing.wishes,
        most_urgent: standing.most_urgent,
        reported: standing.reported,
        wished: standing.wished,
        report: report.unwrap_or_default(),
        wish: wish.unwrap_or_default(),
    }
}
