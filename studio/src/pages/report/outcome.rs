//! What became of a report: the notes, and the form for one more.

use chrono::{DateTime, NaiveDate, Utc};
use content::Content;
use shared_types::{
    dates,
    outcome::{Counting, Ending, Outcome, ReExposure, Seriousness},
    page::{
        form::Filled,
        reports::{OutcomeLine, OutcomePart},
    },
};

use super::super::wall::Wall;
use crate::record::outcomes::Noted;

/// The boxes that a region has, in the order of the list; where none is known, the European ones.
pub fn boxes(content: &Content, region: &str) -> Vec<Seriousness> {
    let own = content
        .regions
        .get(region)
        .map(|one| one.serious.as_slice());
    let own = own.filter(|boxes| !boxes.is_empty());
    own.unwrap_or(Seriousness::EUROPEAN).to_vec()
}

/// The boxes that a note may tick: those of the region, and what was ticked under another region's list, so that a new
/// note does not lose it.
pub fn offered(content: &Content, region: &str, latest: Option<&Outcome>) -> Vec<Seriousness> {
    let mut boxes = boxes(content, region);
    for one in latest.iter().flat_map(|outcome| &outcome.serious) {
        if !boxes.contains(one) {
            boxes.push(*one);
        }
    }
    boxes
}

/// The form of an outcome, as it was noted.
pub fn filled(noted: &Noted) -> Filled {
    let mut form = Filled::default();
    let outcome = &noted.outcome;
    form.put("beside", noted.id.to_string());
    let texts = [
        ("advised", &outcome.advised),
        ("done", &outcome.done),
        ("diagnosis", &outcome.diagnosis),
        ("tests", &outcome.tests),
        ("other_explanations", &outcome.other_explanations),
    ];
    for (field, text) in texts {
        form.put(field, text.as_str());
    }
    if let Some(ended) = outcome.ended {
        form.put("ended", ended.term());
    }
    for one in &outcome.serious {
        form.put("serious", one.term());
    }
    if let Some(day) = outcome.aware_on {
        form.put("aware_on", day.to_string());
    }
    if let Some(confirmed) = outcome.medically_confirmed {
        form.put("medically_confirmed", yes_or_no(confirmed));
    }
    if let Some(again) = outcome.re_exposure {
        form.put("re_exposure", again.term());
    }
    form
}

pub fn yes_or_no(yes: bool) -> &'static str {
    if yes { "yes" } else { "no" }
}

/// What became of a report, and the form for one more note.
pub fn outcome_part(
    content: &Content,
    region: &str,
    noted: &[Noted],
    form: Filled,
    wall: &Wall<'_>,
    now: DateTime<Utc>,
) -> OutcomePart {
    let words = wall.words;
    let named = |kind: &str, term: &str| {
        let name = words.say(&format!("{kind}.{term}")).to_owned();
        (term.to_owned(), name)
    };
    let latest = noted.first().map(|one| &one.outcome);
    let boxes = offered(content, region, latest);
    let pass_on = content
        .regions
        .get(region)
        .and_then(|one| one.pass_on.as_ref());
    let days = pass_on
        .map(|one| one.days.value.to_string())
        .unwrap_or_default();
    // What counts as being unable to do the usual things is not said where that is no box.
    let usual = boxes.contains(&Seriousness::FunctionalIncapacity);
    let law = [
        Some(format!("serious_law.{region}")),
        usual.then(|| "serious_law.usual_things".to_owned()),
        Some("serious_law.passing_on".to_owned()),
    ];
    let due = latest
        .filter(|outcome| outcome.is_serious())
        .and_then(|outcome| outcome.aware_on)
        .and_then(|aware| Some((aware, pass_on?.due(aware)?)));
    OutcomePart {
        noted: noted
            .iter()
            .map(|one| outcome_line(one, wall, now))
            .collect(),
        form,
        endings: Ending::ALL
            .iter()
            .map(|one| named("ending", one.term()))
            .collect(),
        serious: boxes
            .iter()
            .map(|one| named("serious", one.term()))
            .collect(),
        re_exposure: ReExposure::ALL
            .iter()
            .map(|one| named("re_exposure", one.term()))
            .collect(),
        law: law
            .iter()
            .flatten()
            .map(|key| words.fill(key, &[("days", &days)]))
            .collect(),
        due: due.map_or_else(String::new, |(aware, last)| {
            let values = [
                ("aware", day(aware, wall, now)),
                ("due", day(last, wall, now)),
            ];
            let values = values.each_ref().map(|(name, text)| (*name, text.as_str()));
            let business = pass_on.is_some_and(|one| one.counts == Counting::BusinessDays);
            let key = if business {
                "artist.outcome.due_business"
            } else {
                "artist.outcome.due"
            };
            words.fill(key, &values)
        }),
    }
}

fn day(day: NaiveDate, wall: &Wall<'_>, now: DateTime<Utc>) -> String {
    dates::date(wall.words, day, wall.day(now))
}

/// The facts of an outcome with their names, which are the words below `names`; what was not said is left out.
pub fn outcome_facts(
    outcome: &Outcome,
    names: &str,
    wall: &Wall<'_>,
    now: DateTime<Utc>,
) -> Vec<(String, String)> {
    let words = wall.words;
    let of_term = |kind: &str, term: &str| words.say(&format!("{kind}.{term}")).to_owned();
    let serious: Vec<String> = outcome
        .serious
        .iter()
        .map(|one| of_term("serious", one.term()))
        .collect();
    let facts = [
        ("advised", outcome.advised.clone()),
        ("done", outcome.done.clone()),
        (
            "ended",
            outcome
                .ended
                .map_or_else(String::new, |one| of_term("ending", one.term())),
        ),
        ("serious", serious.join(" · ")),
        (
            "aware_on",
            outcome
                .aware_on
                .map_or_else(String::new, |one| day(one, wall, now)),
        ),
        (
            "confirmed",
            outcome.medically_confirmed.map_or_else(String::new, |yes| {
                words
                    .say(&format!("urgency.answer.{}", yes_or_no(yes)))
                    .to_owned()
            }),
        ),
        ("diagnosis", outcome.diagnosis.clone()),
        (
            "re_exposure",
            outcome
                .re_exposure
                .map_or_else(String::new, |one| of_term("re_exposure", one.term())),
        ),
        ("tests", outcome.tests.clone()),
        ("other_explanations", outcome.other_explanations.clone()),
    ];
    facts
        .into_iter()
        .filter(|(_, text)| !text.is_empty())
        .map(|(name, text)| (words.say(&format!("{names}.{name}")).to_owned(), text))
        .collect()
}

fn outcome_line(noted: &Noted, wall: &Wall<'_>, now: DateTime<Utc>) -> OutcomeLine {
    let when = wall.moment(noted.at, now).text;
    OutcomeLine {
        by: wall.words.fill(
            "artist.report.answered",
            &[("by", &noted.by), ("when", &when)],
        ),
        facts: outcome_facts(&noted.outcome, "artist.outcome", wall, now),
    }
}
