//! One report as the artist reads it: what was said and told, how it went on, its visit, and what became of it.

mod beside;
mod outcome;
mod said;

use chrono::{DateTime, Utc};
use rusqlite::Connection;
use shared_types::page::{
    artist::ProductLine,
    client::Moment,
    form::Filled,
    reports::{NotAgainPart, ReportView},
};
use uuid::Uuid;

use super::{advised::Values, desk::Replies, reports, visits, wall::Wall};
use crate::{
    record::{
        RecordError, not_again,
        outcomes::{self, Noted},
        patch_tests,
        photos::{self, Photo},
        reports::{
            self as record_reports, Held,
            consents::{self, Given},
            events::{self, Done},
            inbox::{self, Line},
        },
        studio::Particulars,
    },
    state::Studio,
};
use beside::{lifted_lines, photos_to_come};
pub use beside::{not_again_lines, patch_test, photo_lines};
use outcome::outcome_part;
pub use outcome::{boxes, filled, offered, outcome_facts, yes_or_no};
pub use said::{consents as consent_lines, said};
use said::{followed, told};

/// What the screen of a report is made from, read in one go.
pub struct Source {
    held: Held,
    visit: visits::Source,
    seen: Option<Done>,
    settled: Option<Done>,
    /// Other reports of the same client, newest first.
    others: Vec<Line>,
    consents: Vec<Given>,
    /// The latest first.
    noted: Vec<Noted>,
    /// Everything that was ever noted for the client, the earliest first.
    not_again: Vec<not_again::Held>,
    /// Put on before the visit ended.
    patch_tests: Vec<patch_tests::Held>,
    photos: Vec<Photo>,
    photos_of_visit: Vec<Photo>,
}

/// The forms of the screen, as far as they are to be mended.
#[derive(Default)]
pub struct Forms {
    pub answer: Filled,
    pub outcome: Option<Filled>,
    pub not_again: Filled,
}

/// Reads a report, the advice of its visit in this language if it was given in it; `None` when there is no such report.
pub fn read(record: &Connection, id: Uuid, language: &str) -> Result<Option<Source>, RecordError> {
    let Some(held) = record_reports::by_id(record, id)? else {
        return Ok(None);
    };
    let Some(visit) = visits::read(record, held.visit, language)? else {
        return Ok(None);
    };
    let client = visit.client.id;
    let mut others = inbox::of_client(record, client)?;
    others.retain(|other| other.held.id != id);
    // Opened again, it waits; and so does one that got worse since.
    let settled = events::settled(record, id)?.pop();
    let settled = settled.filter(|(settled, _)| *settled && !held.waiting);
    Ok(Some(Source {
        seen: events::seen(record, id)?,
        settled: settled.map(|(_, done)| done),
        others,
        consents: consents::of_report(record, id)?,
        noted: outcomes::of_report(record, id)?,
        not_again: not_again::ever(record, client)?,
        patch_tests: patch_tests::before(record, client, visit.visit.finished_at)?,
        photos: photos::of_report(record, id)?,
        photos_of_visit: photos::of_visit(record, visit.visit.id)?,
        held,
        visit,
    }))
}

/// The artist's view of a report.
pub fn view(
    studio: &Studio,
    particulars: &Particulars,
    source: Source,
    forms: Forms,
    wall: &Wall<'_>,
    now: DateTime<Utc>,
) -> ReportView {
    let words = wall.words;
    let replies = Replies::with(studio, source.visit.desk.clone());
    let values = Values::of(studio, particulars, &particulars.language);
    let held = &source.held;
    let (latest, judged) = held.latest();
    let moment = |at| wall.moment(at, now).text;
    let waits = replies.of(held, words, now);
    let visit = &source.visit.visit;
    let outcome_form = forms.outcome.unwrap_or_else(|| {
        let latest = source.noted.first();
        latest.map_or_else(Filled::default, filled)
    });
    ReportView {
        id: held.id,
        received: wall.moment(held.received_at, now),
        after_visit: wall.after_visit(held.received_at, visit.finished_at),
        level: held.level(),
        waits: waits.said,
        overdue: waits.overdue,
        seen: source.seen.as_ref().map_or_else(String::new, |seen| {
            let when = done_by(seen, wall, now).text;
            words.fill("artist.work.seen", &[("when", &when)])
        }),
        said: said(
            &latest,
            judged,
            &studio.content.catalogue.urgency.compiled(),
            words,
        ),
        told: told(held, words, &values),
        followed: followed(held, wall, now),
        patch_tests: source
            .patch_tests
            .iter()
            .map(|held| patch_test(held, &wall.moment(held.test.applied_at, now).text, words))
            .collect(),
        consents: consent_lines(&source.consents, words, moment),
        others: source
            .others
            .iter()
            .map(|other| reports::line(other, &replies, wall, now))
            .collect(),
        photos: photo_lines(&source.photos_of_visit, &source.photos, words, moment),
        photos_to_come: photos_to_come(held.report.photos, source.photos.len(), words),
        answers: reports::answers(&held.answers, wall, now),
        beginnings: replies.beginnings(words),
        outcome: outcome_part(
            &studio.content,
            &particulars.region,
            &source.noted,
            outcome_form,
            wall,
            now,
        ),
        not_again: NotAgainPart {
            products: visit
                .products
                .iter()
                .map(|product| ProductLine {
                    name: product.name.clone(),
                    batch: product.batch.clone(),
                })
                .collect(),
            lines: not_again_lines(&not_again::standing(&source.not_again), wall, now),
            lifted: lifted_lines(&source.not_again, wall, now),
            form: forms.not_again,
        },
        settled: source.settled.map(|one| done_by(&one, wall, now)),
        visit: visits::view(studio, particulars, source.visit, wall, now),
        answer_id: forms
            .answer
            .value("answer_id")
            .parse()
            .unwrap_or_else(|_| Uuid::new_v4()),
        form: forms.answer,
    }
}

/// When something was done, and who did it: "Thursday 14:30 by Ilse".
fn done_by(done: &Done, wall: &Wall<'_>, now: DateTime<Utc>) -> Moment {
    let when = wall.moment(done.at, now).text;
    let values = [("when", when.as_str()), ("who", &done.by)];
    Moment {
        at: done.at,
        text: wall.words.fill("artist.work.done", &values),
    }
}
