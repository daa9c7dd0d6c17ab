//! What stands beside what was said: photos, skin tests, and products that are not to be used again.

use chrono::{DateTime, Utc};
use shared_types::{
    page::reports::{NotAgainLine, PhotoLine},
    words::Words,
};

use super::super::wall::Wall;
use crate::record::{not_again, patch_tests, photos::Photo};

/// Photos of a report and those of the end of its visit, each with its date.
pub fn photo_lines(
    of_visit: &[Photo],
    of_report: &[Photo],
    wall: &Wall<'_>,
    now: DateTime<Utc>,
) -> Vec<PhotoLine> {
    let line = |key: &str, photo: &Photo| {
        let when = wall.moment(photo.received_at, now).text;
        PhotoLine {
            address: format!("/studio/photos/{}", photo.id),
            caption: wall.words.fill(key, &[("when", &when)]),
        }
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
    let words = wall.words;
    let line = |one: &not_again::Held| NotAgainLine {
        id: one.id,
        what: if one.what.batch.is_empty() {
            words.fill("artist.not_again.whole", &[("product", &one.what.product)])
        } else {
            let values = [
                ("product", one.what.product.as_str()),
                ("batch", &one.what.batch),
            ];
            words.fill("artist.not_again.batch", &values)
        },
        since: {
            let when = wall.moment(one.at, now).text;
            words.fill(
                "artist.not_again.since",
                &[("when", &when), ("who", &one.by)],
            )
        },
        words: one.words.clone(),
        report: one.report,
    };
    held.iter().map(line).collect()
}
