//! The screen of one report, filled in.

use axum::response::Html;
use shared_types::page::{
    artist::{ProductLine, Screen},
    reports::{NotAgainPart, ReportView},
};
use uuid::Uuid;

use super::Forms;
use crate::{
    error::Refusal,
    pages::{self, desk::Replies, report_view},
    record::{
        not_again, outcomes, patch_tests, photos,
        reports::{self, consents, events},
        visits,
    },
    security::session::SignedIn,
    state::Studio,
};

pub(super) fn screen(
    studio: &Studio,
    signed: &SignedIn,
    id: Uuid,
    forms: Forms,
) -> Result<Html<String>, Refusal> {
    let particulars = pages::artist::particulars(studio)?;
    let wall = pages::artist::wall(studio, &particulars);
    let (words, now) = (wall.words, signed.now);
    let replies = Replies::read(studio)?;
    let found = studio.record.read(|record| {
        let Some(held) = reports::by_id(record, id)? else {
            return Ok(None);
        };
        let Some(source) = pages::visits::read(record, held.visit, &particulars.language)? else {
            return Ok(None);
        };
        let settled = if held.waiting {
            None
        } else {
            events::settled_at(record, id)?
        };
        let (client, source_visit) = (source.client.id, source.visit.id);
        let mut others = Vec::new();
        for visit in visits::of_client(record, client)? {
            for other in reports::of_visit(record, visit.id)? {
                if other.id != id {
                    others.push((other, visit.clone()));
                }
            }
        }
        others.sort_by_key(|(other, _)| std::cmp::Reverse(other.received_at));
        Ok(Some((
            held,
            source,
            settled,
            others,
            consents::of_report(record, id)?,
            outcomes::of_report(record, id)?,
            not_again::of_client(record, client)?,
            patch_tests::of_client(record, client)?,
            (
                photos::of_visit(record, source_visit)?,
                photos::of_report(record, id)?,
            ),
        )))
    })?;
    let (held, source, settled, others, consents, noted, not_again, mut tests, photos) =
        found.ok_or(Refusal::NotFound)?;
    tests.retain(|held| held.test.applied_at <= source.visit.finished_at);
    let rules = studio.content.catalogue.urgency.compiled();
    let values = pages::trouble::values(
        studio,
        &studio.card(&particulars, &signed.artist_name, &particulars.language),
    );
    let values: Vec<(&str, &str)> = values
        .iter()
        .map(|(name, value)| (*name, value.as_str()))
        .collect();
    let waits = held.waiting && !held.is_answered();
    let (level, since) = (held.level(), held.waits_since());
    let first_name = source.client.first_name.clone();
    let finished = source.visit.finished_at;
    let products = source.visit.products.iter();
    let view = ReportView {
        id,
        received: wall.moment(held.received_at, now),
        after_visit: wall.after_visit(held.received_at, finished),
        level,
        waits: if waits {
            replies.waits(words, level, since, now)
        } else {
            String::new()
        },
        overdue: waits && replies.is_overdue(level, since, now),
        seen: held.seen_at.map_or_else(String::new, |at| {
            words.fill("artist.work.seen", &[("when", &wall.moment(at, now).text)])
        }),
        said: report_view::said(&held, &rules, words),
        told: report_view::told(&held, words, &values),
        followed: report_view::followed(&held, &wall, now),
        patch_tests: tests
            .iter()
            .map(|held| {
                let when = wall.moment(held.test.applied_at, now).text;
                report_view::patch_test(held, &when, words)
            })
            .collect(),
        consents: report_view::consents(&consents, &wall, now),
        others: others
            .iter()
            .map(|(other, visit)| {
                pages::reports::line_of(other, &first_name, visit, &replies, &wall, now)
            })
            .collect(),
        photos: report_view::photo_lines(&photos.0, &photos.1, &wall, now),
        photos_to_come: report_view::photos_to_come(held.report.photos, photos.1.len(), words),
        answers: pages::reports::answers(&held.answers, &wall, now),
        beginnings: replies.beginnings(words),
        outcome: report_view::outcome_part(
            &studio.content,
            &particulars.region,
            &noted,
            forms.outcome.unwrap_or_else(|| {
                let latest = noted.first();
                latest.map_or_else(Default::default, |one| report_view::filled(&one.outcome))
            }),
            &wall,
            now,
        ),
        not_again: NotAgainPart {
            products: products
                .map(|product| ProductLine {
                    name: product.name.clone(),
                    batch: product.batch.clone(),
                })
                .collect(),
            lines: report_view::not_again_lines(&not_again, &wall, now),
            form: forms.not_again,
        },
        settled: settled.map(|at| wall.moment(at, now)),
        visit: pages::visits::view(studio, &particulars, source, &wall, now),
        answer_id: forms
            .answer
            .value("answer_id")
            .parse()
            .unwrap_or_else(|_| Uuid::new_v4()),
        form: forms.answer,
    };
    pages::artist::screen(studio, &particulars, signed, Screen::Report(Box::new(view)))
}
