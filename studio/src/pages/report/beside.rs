//! What stands beside what was said: photos, skin tests, and products that are not to be used again.

use chrono::{DateTime, Utc};
use shared_types::{
    page::reports::{NotAgainLine, PhotoLine},
    words::Words,
};

use super::super::wall::Wall;
use crate::record::{not_again, patch_tests, photos::Photo};

/// Photos of a report and those of the end of its visit, each with its date, as `when` writes it.
pub fn photo_lines(
    of_visit: &[Photo],
    of_report: &[Photo],
    words: &Words,
    when: impl Fn(DateTime<Utc>) -> String,
) -> Vec<PhotoLine> {
    let line = |key: &str, photo: &Photo| PhotoLine {
        address: format!("/studio/photos/{}", photo.id),
        caption: words.fill(key, &[("when", &when(photo.received_at))]),
    };
    let visit = of_visit.iter();
    let visit = visit.map(|photo| line("artist.work.photo_visit", photo));
    let report = of_report.iter();
    visit
        .chain(report.map(|photo| line("artist.work.photo_sent", photo)))
        .collect()
}

/// How many photos were announced and are not there yet, in a sentence; empty when none is missing.
pub fn photos_to_come(announced: u8, arrived: usize, words: &Words) -> String {
    match usize::from(announced).saturating_sub(arrived) {
        0 => String::new(),
        missing => words.count("artist.work.photos_to_come", missing as i64),
    }
}

/// A skin test: of what, when, and what it showed. `when` is written by the caller: paper needs the year.
pub fn patch_test(held: &patch_tests::Held, when: &str, words: &Words) -> String {
    let result = match held.outcome() {
        Some(outcome) => words.say(&format!("patch_outcome.{outcome}")).to_owned(),
        None => words.say("case.test_unread").to_owned(),
    };
    let product = held.test.product.name.as_str();
    let values = [("product", product), ("when", when), ("result", &result)];
    words.fill("case.test", &values)
}

/// What is not to be used again.
pub fn not_again_lines(
    held: &[not_again::Held],
    wall: &Wall<'_>,
    now: DateTime<Utc>,
) -> Vec<NotAgainLine> {
    let line = |one: &not_again::Held| NotAgainLine {
        id: one.id,
        what: not_again_name(one, wall.words),
        since: not_again_since(one, wall, now),
        words: one.words.clone(),
        report: one.report,
    };
    held.iter().map(line).collect()
}

/// What was not to be used again and may be since, in a line each, the latest lifted first.
pub fn lifted_lines(ever: &[not_again::Held], wall: &Wall<'_>, now: DateTime<Utc>) -> Vec<String> {
    let lifted = ever
        .iter()
        .filter_map(|one| Some((one.lifted.as_ref()?, one)));
    let mut lifted: Vec<_> = lifted.collect();
    lifted.sort_by_key(|(lifted, _)| std::cmp::Reverse(lifted.at));
    let line = |(lifted, one): (&not_again::Lifted, &not_again::Held)| {
        let values = [
            ("product", not_again_name(one, wall.words)),
            ("since", not_again_since(one, wall, now)),
            ("when", wall.moment(lifted.at, now).text),
            ("who", lifted.by.clone()),
        ];
        let values = values.each_ref().map(|(name, text)| (*name, text.as_str()));
        let line = wall.words.fill("artist.not_again.lifted", &values);
        if one.words.is_empty() {
            line
        } else {
            format!("{line} {}", one.words)
        }
    };
    lifted.into_iter().map(line).collect()
}

fn not_again_name(one: &not_again::Held, words: &Words) -> String {
    if one.what.batch.is_empty() {
        words.fill("artist.not_again.whole", &[("product", &one.what.product)])
    } else {
        let values = [
            ("product", one.what.product.as_str()),
            ("batch", &one.what.batch),
        ];
        words.fill("artist.not_again.batch", &values)
    }
}

fn not_again_since(one: &not_again::Held, wall: &Wall<'_>, now: DateTime<Utc>) -> String {
    let when = wall.moment(one.at, now).text;
    wall.words.fill(
        "artist.not_again.since",
        &[("when", &when), ("who", &one.by)],
    )
}
