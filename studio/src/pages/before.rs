//! What should stop or delay a treatment, in words; and what was kept of that.

use chrono::{DateTime, Utc};
use content::Content;
use shared_types::{
    consultation::{Clears, Concern},
    dates,
    page::before::{BeforeView, ConcernLine, PutOffLine, PutOffView},
};

use super::{sources, visits::done, wall::Wall};
use crate::record::{clients::Client, consultations::Held};

/// A concern as the artist reads it now.
pub fn line(
    content: &Content,
    concern: &Concern,
    wall: &Wall<'_>,
    now: DateTime<Utc>,
) -> ConcernLine {
    let words = wall.words;
    let when = concern.clears.map(|clears| match clears {
        Clears::On(on) => dates::date(words, on, wall.day(now)),
        Clears::At(at) => wall.moment(at, now).text,
    });
    ConcernLine {
        weight: concern.weight,
        title: words.say(&format!("weight.{}", concern.weight)).to_owned(),
        sentence: concern.sentence(words),
        clears: when
            .map(|when| words.fill("consultation.clears", &[("when", &when)]))
            .unwrap_or_default(),
        basis: sources::basis(&content.catalogue, concern.grade, &concern.sources, words),
    }
}

/// What was kept beside a visit, or of one that was put off.
pub fn view(held: &Held, wall: &Wall<'_>, now: DateTime<Utc>) -> BeforeView {
    let words = wall.words;
    let told = &held.consultation.told;
    let when = wall.moment(held.made_at, now).text;
    BeforeView {
        lines: held.consultation.shown.clone(),
        decision: match told.decision {
            Some(decision) => words.say(&format!("decision.{decision}")).to_owned(),
            None => words.say("artist.before.undecided").to_owned(),
        },
        words: told.words.clone(),
        stopped: told
            .retinoid_stopped_days
            .map(|days| words.count("consultation.stopped", days.into()))
            .unwrap_or_default(),
        kept: words.fill(
            "artist.before.kept",
            &[("when", &when), ("who", &held.made_by)],
        ),
    }
}

/// What was put off, one line each.
pub fn put_off_lines(all: &[Held], wall: &Wall<'_>, now: DateTime<Utc>) -> Vec<PutOffLine> {
    let line = |held: &Held| {
        let what = wall
            .words
            .list(&done(&held.consultation.treatments, wall.words));
        let when = wall.moment(held.consultation.at, now).text;
        PutOffLine {
            id: held.consultation.id,
            text: wall.words.fill(
                "artist.before.put_off_done",
                &[("treatments", &what), ("when", &when)],
            ),
        }
    };
    all.iter().map(line).collect()
}

/// All that is kept of a treatment that was put off; `all` are those of the same client.
pub fn put_off_view(
    held: &Held,
    all: &[Held],
    client: Client,
    wall: &Wall<'_>,
    now: DateTime<Utc>,
) -> PutOffView {
    let words = wall.words;
    let one = &held.consultation;
    let findings = one.findings.found();
    let mut others = put_off_lines(all, wall, now);
    others.retain(|other| other.id != one.id);
    PutOffView {
        client: client.id,
        first_name: client.first_name,
        treatments: done(&one.treatments, words),
        at: wall.moment(one.at, now),
        findings: findings
            .map(|finding| words.say(&format!("finding.{finding}")).to_owned())
            .collect(),
        flags: one
            .flags
            .iter()
            .map(|flag| words.say(&format!("flag.{flag}")).to_owned())
            .collect(),
        note: one.note.clone(),
        before: view(held, wall, now),
        others,
    }
}
