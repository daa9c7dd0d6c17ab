//! Patch tests as lines and as the artist's view of one.

use chrono::{DateTime, Utc};
use shared_types::{
    page::{
        form::Filled,
        patch_tests::{LookTime, PatchTestLine, PatchTestView, ToldCard},
    },
    patch_test::{Applied, Noticed, Outcome, Place},
    words::Words,
};
use uuid::Uuid;

use super::{visits, wall::Wall};
use crate::{
    record::{
        clients::Client,
        links::Link,
        patch_tests::{Held, list::Line},
    },
    state::Studio,
};

/// Where it was put on, in words.
pub fn place(test: &Applied, words: &Words) -> String {
    let place = words.say(&format!("patch_place.{}", test.place)).to_owned();
    match (test.place, test.place_words.as_str()) {
        (_, "") => place,
        (Place::Elsewhere, own) => own.to_owned(),
        (_, own) => words.fill(
            "patch_test.where_with",
            &[("place", &place), ("words", own)],
        ),
    }
}

/// The times at which to look.
pub fn looks(test: &Applied, wall: &Wall<'_>, now: DateTime<Utc>) -> Vec<LookTime> {
    let look = |(hours, at)| LookTime {
        hours,
        at: wall.moment(at, now),
        over: at <= now,
    };
    test.looks().map(look).collect()
}

/// What the client told, newest first.
pub fn told(held: &Held, wall: &Wall<'_>, now: DateTime<Utc>) -> Vec<ToldCard> {
    let card = |one: &crate::record::patch_tests::events::Answered| ToldCard {
        received: wall.moment(one.received_at, now),
        noticed: one.answer.noticed,
        said: wall
            .words
            .say(&format!("patch_noticed.{}", one.answer.noticed))
            .to_owned(),
        words: one.answer.words.clone(),
    };
    held.answers.iter().rev().map(card).collect()
}

/// An outcome in words.
pub fn outcome(outcome: Outcome, words: &Words) -> String {
    words.say(&format!("patch_outcome.{outcome}")).to_owned()
}

/// What the client said since the artist last read it.
fn said_since(held: &Held) -> Option<Noticed> {
    let read = held.events.iter().map(|event| event.at).max();
    let since = |at| read.is_none_or(|read| at > read);
    let told = held.answers.iter().rev();
    let mut told = told.filter(|one| since(one.received_at));
    // That it shows something is not forgotten because a later word says less.
    let seen = told
        .clone()
        .find(|one| one.answer.noticed == Noticed::Something);
    seen.or_else(|| told.next()).map(|one| one.answer.noticed)
}

/// How soon it has to be looked at, the soonest first.
fn urgency(held: &Held, now: DateTime<Utc>) -> u8 {
    match said_since(held) {
        Some(Noticed::Something) => 0,
        Some(Noticed::NotSure) => 1,
        Some(Noticed::Nothing) => 2,
        None if held.test.next_look(now).is_none() => 3,
        None => 4,
    }
}

/// The lines of a list of tests that wait, most urgent first.
pub fn by_urgency(mut lines: Vec<Line>, wall: &Wall<'_>, now: DateTime<Utc>) -> Vec<PatchTestLine> {
    lines.sort_by_key(|one| (urgency(&one.held, now), one.held.test.applied_at));
    lines.iter().map(|one| line(one, wall, now)).collect()
}

/// A test in a list.
pub fn line(line: &Line, wall: &Wall<'_>, now: DateTime<Utc>) -> PatchTestLine {
    let (held, words) = (&line.held, wall.words);
    let test = &held.test;
    let treatments = words.list(&visits::done(&test.treatments, words));
    let values = [
        ("product", test.product.name.as_str()),
        ("done", &treatments),
    ];
    let say = |key: &str| words.say(&format!("artist.patch_tests.{key}")).to_owned();
    let said = said_since(held).filter(|_| held.waiting);
    let state = match (said, held.withdrawn(), held.outcome()) {
        (_, Some(_), _) => say("withdrawn"),
        (Some(noticed), None, _) => {
            let said = words
                .say(&format!("artist.patch_tests.said_{noticed}"))
                .to_owned();
            words.fill("artist.patch_tests.said", &[("said", &said)])
        }
        (None, None, Some(found)) => outcome(found, words),
        (None, None, None) => match test.next_look(now) {
            Some(at) => {
                let when = wall.moment(at, now).text;
                words.fill("artist.patch_tests.look", &[("when", &when)])
            }
            None => say("look_over"),
        },
    };
    PatchTestLine {
        id: test.id,
        first_name: line.client.first_name.clone(),
        put_on: wall.moment(test.applied_at, now),
        what: words.fill("artist.patch_tests.of", &values),
        state,
        urgent: matches!(said, Some(Noticed::Something | Noticed::NotSure)),
    }
}

/// The artist's view of a test.
pub fn view(
    studio: &Studio,
    (held, client, link): (Held, Client, Link),
    wall: &Wall<'_>,
    form: Filled,
    now: DateTime<Utc>,
) -> PatchTestView {
    let words = wall.words;
    let when = |at| wall.moment(at, now).text;
    let readings = held.events.iter().rev().filter_map(|event| {
        let found = outcome(event.outcome()?, words);
        let values = [
            ("by", event.by.as_str()),
            ("when", &when(event.at)),
            ("outcome", &found),
        ];
        Some((
            words.fill("artist.patch_test.read_by", &values),
            event.words.clone(),
        ))
    });
    let withdrawn = held.withdrawn().map(|event| {
        let values = [("when", when(event.at)), ("by", event.by.clone())];
        let values = values
            .each_ref()
            .map(|(name, value)| (*name, value.as_str()));
        (
            words.fill("artist.patch_test.withdrawn", &values),
            event.words.clone(),
        )
    });
    let stands = match held.outcome() {
        Some(found) => words.fill(
            "artist.patch_test.stands",
            &[("outcome", &outcome(found, words))],
        ),
        None => words.say("artist.patch_test.stands_open").to_owned(),
    };
    let test = &held.test;
    PatchTestView {
        id: test.id,
        client: client.id,
        first_name: client.first_name,
        reach: client.reach,
        put_on: wall.moment(test.applied_at, now),
        recorded_by: held.recorded_by.clone(),
        product: test.product.name.clone(),
        batch: test.product.batch.clone(),
        place: place(test, words),
        treatments: visits::done(&test.treatments, words),
        note: test.note.clone(),
        looks: looks(test, wall, now),
        told: told(&held, wall, now),
        readings: readings.collect(),
        stands,
        waiting: held.waiting,
        withdrawn,
        link: visits::link_view(studio, &link, &[], wall, now),
        outcomes: Outcome::ALL
            .iter()
            .map(|one| (one.term().to_owned(), outcome(*one, words)))
            .collect(),
        event_id: form
            .value("event_id")
            .parse()
            .unwrap_or_else(|_| Uuid::new_v4()),
        form,
    }
}
