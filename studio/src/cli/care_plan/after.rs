//! How it settles, as the command line answers it.

use chrono::{DateTime, SecondsFormat, Utc};
use chrono_tz::Tz;
use serde::Serialize;
use shared_types::{care_plan::After, visit::Treatment, words::Words};

#[derive(Serialize)]
pub struct Answer<'a> {
    ordinary: Vec<Line<'a>>,
    not_ordinary: Vec<Line<'a>>,
    care: Vec<Line<'a>>,
}

#[derive(Serialize)]
struct Line<'a> {
    id: &'a str,
    /// Since when it counts, where a caution stands against it before.
    #[serde(skip_serializing_if = "Option::is_none")]
    from: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    from_local: Option<String>,
    /// How long it is ordinary.
    #[serde(skip_serializing_if = "Option::is_none")]
    until: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    until_local: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    hours: Option<u32>,
    because: Vec<&'static str>,
    source: &'a [String],
    text: String,
}

pub fn answer<'a>(after: &'a After, zone: Tz, words: &Words) -> Answer<'a> {
    let utc = |at: DateTime<Utc>| at.to_rfc3339_opts(SecondsFormat::AutoSi, true);
    let local = |at: DateTime<Utc>| {
        at.with_timezone(&zone)
            .to_rfc3339_opts(SecondsFormat::AutoSi, false)
    };
    let ordinary = after.ordinary.iter().map(|one| Line {
        until: Some(utc(one.until)),
        until_local: Some(local(one.until)),
        hours: Some(one.hours),
        ..line(&one.id, &one.because, &one.sources, one.sentence(words))
    });
    let not_ordinary = after.not_ordinary.iter();
    let care = after.tips.iter().map(|tip| Line {
        from: tip.from.map(utc),
        from_local: tip.from.map(local),
        ..line(&tip.id, &tip.because, &tip.sources, tip.sentence(words))
    });
    Answer {
        ordinary: ordinary.collect(),
        not_ordinary: not_ordinary
            .map(|one| line(&one.id, &one.because, &one.sources, one.sentence(words)))
            .collect(),
        care: care.collect(),
    }
}

fn line<'a>(id: &'a str, because: &[Treatment], source: &'a [String], text: String) -> Line<'a> {
    Line {
        id,
        from: None,
        from_local: None,
        until: None,
        until_local: None,
        hours: None,
        because: because.iter().map(|one| one.term()).collect(),
        source,
        text,
    }
}
