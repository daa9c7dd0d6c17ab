//! The client's page, filled in.

use chrono::{DateTime, Utc};
use shared_types::{
    care_plan,
    page::{
        client::{ClientPage, StudioCard},
        form::Filled,
    },
    visit::Treatment,
};
use uuid::Uuid;

use super::{reports, wall::Wall};
use crate::{
    advice::Advice,
    error::Refusal,
    links::{address, secret::Secret},
    record::{
        RecordError, clients::Client, links::Link, reports as record_reports, studio, visits,
    },
    state::Studio,
};

/// The words that the page needs.
const WORDS: &[&str] = &[
    "client.",
    "picture.",
    "sign.",
    "since.",
    "trend.",
    "fault.report_empty",
    "fault.words_long",
    "fault.reach_long",
    "fault.consent",
    "plural.",
    "list.",
];

/// The words for consent that are shown, by version: what the client agreed to is known later. Raise it whenever
/// `client.form.consent` changes its meaning.
pub const CONSENT_VERSION: &str = "2026-11";

/// What a page is made from, read in one go.
pub struct Source {
    pub studio: studio::Particulars,
    pub client: Client,
    pub finished_at: DateTime<Utc>,
    pub treatments: Vec<Treatment>,
    pub advice: Advice,
    pub language: String,
    pub artist: String,
    pub reports: Vec<record_reports::Held>,
}

/// Reads what the page of a link shows.
pub fn read(studio: &Studio, link: &Link) -> Result<Source, Refusal> {
    let source = studio.record.read(|record| {
        let gone = || RecordError::Unreadable("a link without its visit".to_owned());
        let (visit, client, given) = visits::by_id(record, link.visit)?.ok_or_else(gone)?;
        Ok(Source {
            studio: studio::current(record)?.ok_or_else(gone)?,
            advice: Advice::read(&given)?,
            artist: visits::recorded_by(record, link.visit)?,
            reports: record_reports::of_visit(record, link.visit)?,
            client,
            finished_at: visit.finished_at,
            treatments: visit.treatments,
            language: given.language,
        })
    })?;
    Ok(source)
}

/// The page's state.
pub fn page(
    studio: &Studio,
    source: Source,
    secret: &Secret,
    form: Filled,
    now: DateTime<Utc>,
) -> ClientPage {
    let (language, words) = studio.words(&source.language);
    let wall = Wall {
        words,
        zone: source.studio.time_zone,
    };
    let advice = source.advice;
    let areas = studio.content.catalogue.areas(&source.treatments);
    ClientPage {
        build: studio.site.build.clone(),
        now,
        as_of: wall.moment(now, now).text,
        language: language.to_owned(),
        words: words.only(WORDS),
        studio: StudioCard {
            name: source.studio.name,
            artist: source.artist,
            phone: source.studio.phone,
            email: source.studio.contact_email,
            emergency: studio.emergency(&source.studio.region, language),
        },
        first_name: source.client.first_name,
        done: advice.done,
        treated: care_plan::your(&areas, words),
        finished: wall.moment(source.finished_at, now),
        path: address::path(secret),
        cautions: advice.cautions,
        after: advice.after,
        weeks: advice.weeks,
        zones: advice.zones,
        before_next: advice.before_next,
        reports: source
            .reports
            .iter()
            .map(|held| reports::card(held, &wall, now))
            .collect(),
        form_id: form
            .value("report_id")
            .parse()
            .unwrap_or_else(|_| Uuid::new_v4()),
        consent_version: CONSENT_VERSION.to_owned(),
        form,
    }
}
