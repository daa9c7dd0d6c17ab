//! What was said and told, how it went on, and what was agreed to.

use chrono::{DateTime, TimeDelta, Utc};
use shared_types::{
    page::reports::{FollowedLine, Said, ToldView},
    reaction::{How, Report, Told},
    urgency::{Answer, Field, Rules, reasons, unanswered},
    words::Words,
};

use super::super::{
    advised::Values,
    lengths::span,
    reports::{named, trend},
    wall::Wall,
};
use crate::record::reports::{Held, consents::Given, follow_ups::Followed};

/// What was reported: first what raised it, by the rules that were found to hold.
pub fn said(report: &Report, judged: &Told, rules: &Rules, words: &Words) -> Said {
    let answers = &report.answers;
    let mut raised = reasons(rules, &judged.rules, answers);
    let lasted = raised.contains(&Field::HoursSinceVisit);
    // When it began and how it goes is said by itself.
    raised.retain(|field| field.is_sign());
    let others: Vec<Field> = answers
        .answered()
        .filter(|field| field.is_sign() && !raised.contains(field))
        .collect();
    let name = |field: &Field| words.say(&format!("urgency.name.{field}")).to_owned();
    let with_answer = |field: &Field| named(*field, answers, words);
    let mut said = Said {
        raised: raised.iter().map(with_answer).collect(),
        course: course(report, lasted, words),
        unanswered: unanswered(rules, answers)
            .iter()
            .filter(|field| field.is_sign())
            .map(name)
            .collect(),
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

/// When it began, how it goes, and how long after the visit that is, where it was raised by that.
fn course(report: &Report, lasted: bool, words: &Words) -> Vec<String> {
    let began = match report.answers.get(Field::OnsetHours) {
        Answer::At(_) => named(Field::OnsetHours, &report.answers, words),
        Answer::NotSure | Answer::Open => String::new(),
    };
    let lasts = match report.answers.get(Field::HoursSinceVisit) {
        Answer::At(minutes) if lasted => {
            let time = span(words, TimeDelta::minutes(minutes.into()));
            words.fill("artist.work.lasted", &[("time", &time)])
        }
        _ => String::new(),
    };
    [began, lasts, trend(report, words)]
        .into_iter()
        .filter(|one| !one.is_empty())
        .collect()
}

/// What the client was told, by the studio's rules and, where it was something else, by the phone.
pub fn told(held: &Held, words: &Words, values: &Values) -> ToldView {
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
        advice: values.advice(&judged.advice, words),
        by_phone: other.map_or_else(Vec::new, |told| values.advice(&told.advice, words)),
        basis: basis.join(" "),
    }
}

/// What its sender said since.
pub fn followed(held: &Held, wall: &Wall<'_>, now: DateTime<Utc>) -> Vec<FollowedLine> {
    let words = wall.words;
    let line = |one: &Followed| {
        let how = words.say(&format!("client.follow.{}", one.how)).to_owned();
        let when = wall.moment(one.answered_at, now).text;
        FollowedLine {
            text: words.fill("artist.work.followed", &[("how", &how), ("when", &when)]),
            worse: one.how == How::Worse,
            level: one.judged.level,
        }
    };
    held.followed.iter().map(line).collect()
}

/// What was agreed to. `when` writes a moment: paper needs the year.
pub fn consents(
    given: &[Given],
    words: &Words,
    when: impl Fn(DateTime<Utc>) -> String,
) -> Vec<String> {
    let line = |one: &Given| {
        let what = words.say(&format!("agreed.{}", one.purpose)).to_owned();
        let values = [("what", what.as_str()), ("when", &when(one.given_at))];
        words.fill("artist.work.agreed", &values)
    };
    given.iter().map(line).collect()
}
