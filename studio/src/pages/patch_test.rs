//! The client's page of a patch test, filled in.

use shared_types::{
    page::{form::Filled, patch_tests::PatchTestPage},
    patch_test::Outcome,
};
use uuid::Uuid;

use super::{patch_tests, visits, wall::Wall};
use crate::{
    error::Refusal,
    handlers::client::TestHolder,
    links::address,
    record::{RecordError, clients, patch_tests as tests, studio},
    state::Studio,
};

/// The words that the page needs.
const WORDS: &[&str] = &[
    "patch_test.",
    "patch_noticed.",
    "client.emergency.",
    "client.foot.",
    "client.head.paths",
    "list.",
];

/// The words for consent that are shown, by version. Raise it whenever `patch_test.tell.consent` changes its meaning.
pub const CONSENT_VERSION: &str = "2026-11";

/// The page's state.
pub fn page(studio: &Studio, holder: &TestHolder, form: Filled) -> Result<PatchTestPage, Refusal> {
    let now = holder.now.0;
    let (held, client, particulars) = studio.record.read(|record| {
        let gone = || RecordError::Unreadable("a link without its patch test".to_owned());
        let held = tests::by_id(record, holder.test)?.ok_or_else(gone)?;
        let client = clients::by_id(record, held.test.client)?.ok_or_else(gone)?;
        let particulars = studio::current(record)?.ok_or_else(gone)?;
        Ok((held, client, particulars))
    })?;
    let (language, words) = studio.words(&holder.language);
    let wall = Wall {
        words,
        zone: particulars.time_zone,
    };
    let test = &held.test;
    let read = held.events.iter().filter_map(|event| {
        let outcome = patch_tests::outcome(event.outcome()?, words);
        let when = wall.moment(event.at, now).text;
        let values = [
            ("studio", particulars.name.as_str()),
            ("when", &when),
            ("outcome", &outcome),
        ];
        Some(words.fill("patch_test.told.read", &values))
    });
    Ok(PatchTestPage {
        language: language.to_owned(),
        words: words.only(WORDS),
        first_name: client.first_name,
        path: address::path(&holder.secret),
        put_on: wall.moment(test.applied_at, now),
        place: patch_tests::place(test, words),
        product: test.product.name.clone(),
        treatments: visits::done(&test.treatments, words),
        looks: patch_tests::looks(test, &wall, now),
        days_to_watch: studio
            .content
            .catalogue
            .patch_test
            .days_to_watch()
            .unwrap_or_default(),
        reacts: held.outcome() == Some(Outcome::Reacted),
        told: patch_tests::told(&held, &wall, now),
        read: read.collect(),
        form_id: form
            .value("answer_id")
            .parse()
            .unwrap_or_else(|_| Uuid::new_v4()),
        consent_version: CONSENT_VERSION.to_owned(),
        form,
        studio: studio.card(&particulars, &held.recorded_by, language),
    })
}
