//! One report as the artist reads it: what was said and told, how it went on, and what became of it.

use chrono::{DateTime, NaiveDate, Utc};
use content::Content;
use shared_types::{
    dates,
    outcome::{Counting, Ending, Outcome, ReExposure, Seriousness},
    page::{
        form::Filled,
        reports::{
            FollowedLine, NotAgainLine, OutcomeLine, OutcomePart, PhotoLine, Said, ToldView,
        },
    },
    reaction::Report,
    urgency::{Answer, Field, Rules, advice_key, reasons},
    words::Words,
};

use super::{
    reports::{named, trend},
    wall::Wall,
};
use crate::record::{
    not_again,
    outcomes::Noted,
    patch_tests,
    photos::Photo,
    reports::{Held, consents::Given},
};

/// Asked on the way, and no sign by themselves.
const NO_SIGNS: [Field; 4] = [
    Field::HoursSinceVisit,
    Field::OnsetHours,
    Field::EyeTrouble,
    Field::Trend,
];

/// What was reported: first what raised it.
pub fn said(held: &Held, rules: &Rules, words: &Words) -> Said {
    let report = &held.report;
    let answers = &report.answers;
    let is_sign = |field: &Field| !NO_SIGNS.contains(field);
    let mut raised = reasons(rules, &held.judged.rules, answers);
    // How it goes is said by itself.
    raised.retain(is_sign);
    let others: Vec<Field> = answers
        .answered()
        .filter(|field| is_sign(field) && !raised.contains(field))
        .collect();
    let name = |field: &Field| words.say(&format!("urgency.name.{field}")).to_owned();
    let with_answer = |field: &Field| named(*field, answers, words);
    let mut said = Said {
        raised: raised.iter().map(with_answer).collect(),
        course: course(report, words),
        places: report
            .places
            .iter()
            .map(|place| {
                let key = format!("place.{place}");
                (place.term().to_owned(), words.say(&key).to_owned())
            })
            .collect(),
        words: report.words.clone(),
        reach: report.reach.clone(),
        ..Said::default()
    };
    for field in &others {
        match answers.get(*field) {
            Answer::At(0) => said.absent.push(name(field)),
            Answer::NotSure => said.not_sure.push(name(field)),
            Answer::At(_) => said.present.push(with_answer(field)),
            Answer::Open => {}
        }
    }
    said
}

/// When it began, and how it goes.
fn course(report: &Report, words: &Words) -> Vec<String> {
    let began = match report.answers.get(Field::OnsetHours) {
        Answer::At(_) => named(Field::OnsetHours, &report.answers, words),
        Answer::NotSure | Answer::Open => String::new(),
    };
    let goes = trend(report, words);
    [began, goes]
        .into_iter()
        .filter(|one| !one.is_empty())
        .collect()
}

/// Sentences of advice in the studio's language. `values` are what they name.
pub fn sentences(advice: &[String], words: &Words, values: &[(&str, &str)]) -> Vec<String> {
    let sentence = |id: &String| words.fill(&advice_key(id), values);
    advice.iter().map(sentence).collect()
}

/// What the client was told, by the studio's rules and, where it was something else, by the phone.
pub fn told(held: &Held, words: &Words, values: &[(&str, &str)]) -> ToldView {
    let judged = &held.judged;
    let ids = |ids: &[String]| ids.join(", ");
    let mut basis = vec![words.fill(
        "artist.work.basis",
        &[
            ("rules", &ids(&judged.rules)),
            ("version", &judged.content_version),
        ],
    )];
    let phone = held.report.told.as_ref();
    let other = phone.filter(|told| (told.level, &told.advice) != (judged.level, &judged.advice));
    if let Some(told) = other {
        basis.push(words.fill(
            "artist.work.phone_basis",
            &[
                ("level", words.say(&format!("artist.level.{}", told.level))),
                ("rules", &ids(&told.rules)),
                ("version", &told.content_version),
            ],
        ));
    }
    ToldView {
        advice: sentences(&judged.advice, words, values),
        by_phone: other.map_or_else(Vec::new, |told| sentences(&told.advice, words, values)),
        basis: basis.join(" "),
    }
}

/// What its sender said since.
pub fn followed(held: &Held, wall: &Wall<'_>, now: DateTime<Utc>) -> Vec<FollowedLine> {
    let words = wall.words;
    let line = |one: &crate::record::reports::follow_ups::Followed| {
        let how = words.say(&format!("client.follow.{}", one.how)).to_owned();
        let when = wall.moment(one.answered_at, now).text;
        FollowedLine {
            text: words.fill("artist.work.followed", &[("how", &how), ("when", &when)]),
            worse: one.how == shared_types::reaction::How::Worse,
            level: one.judged.level,
        }
    };
    held.followed.iter().map(line).collect()
}

/// What was agreed to.
pub fn consents(given: &[Given], wall: &Wall<'_>, now: DateTime<Utc>) -> Vec<String> {
    let line = |one: &Given| {
        let what = wall
            .words
            .say(&format!("agreed.{}", one.purpose))
            .to_owned();
        let when = wall.moment(one.given_at, now).text;
        let values = [("what", what.as_str()), ("when", &when)];
        wall.words.fill("artist.work.agreed", &values)
    };
    given.iter().map(line).collect()
}

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

/// The boxes that a region has, in the order of the list; where none is known, the European ones.
pub fn boxes(content: &Content, region: &str) -> Vec<Seriousness> {
    let own = content
        .regions
        .get(region)
        .map(|one| one.serious.as_slice());
    let own = own.filter(|boxes| !boxes.is_empty());
    own.unwrap_or(Seriousness::EUROPEAN).to_vec()
}

/// The form of an outcome, as it was noted.
pub fn filled(outcome: &Outcome) -> Filled {
    let mut form = Filled::default();
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
    let mut boxes = boxes(content, region);
    // What was ticked under another region's list stays on offer, so that a new note does not lose it.
    let ticked = latest.iter().flat_map(|outcome| &outcome.serious);
    for one in ticked.copied().collect::<Vec<_>>() {
        if !boxes.contains(&one) {
            boxes.push(one);
        }
    }
    let pass_on = content
        .regions
        .get(region)
        .and_then(|one| one.pass_on.as_ref());
    let days = pass_on
        .map(|one| one.days.value.to_string())
        .unwrap_or_default();
    let law = [
        format!("serious_law.{region}"),
        "serious_law.passing_on".to_owned(),
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
