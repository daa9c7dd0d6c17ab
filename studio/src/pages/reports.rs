//! Reports as cards for their sender and as lines for the artist.

use chrono::{DateTime, TimeDelta, Utc};
use shared_types::{
    page::{
        client::{AnswerCard, SentCard},
        reports::ReportLine,
    },
    reaction::Report,
    urgency::{Answer, Answers, Field, NOT_SURE, Scale},
    words::Words,
};

use super::{advised, client::Source, desk::Replies, wall::Wall};
use crate::{
    record::reports::{self, Held, inbox::Line},
    state::Studio,
};

/// Characters of a report or a wish in a list.
const GIST: usize = 140;

/// What is answered with a sign, as short names, then the words; shortened to a line.
pub fn gist(report: &Report, words: &Words) -> String {
    let mut line = present(report, words).join(" · ");
    let said = report
        .words
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ");
    if !said.is_empty() {
        if !line.is_empty() {
            line.push_str(" · ");
        }
        line.push_str(&said);
    }
    shortened(line)
}

/// The signs that are there by the answers, each by its short name and how much of it: "Swelling: my eyelids", "Itch 7/10".
pub fn present(report: &Report, words: &Words) -> Vec<String> {
    let answers = &report.answers;
    let signs = answers.answered().filter(|field| field.is_sign());
    signs
        .filter_map(|field| match answers.get(field) {
            Answer::At(0) | Answer::Open | Answer::NotSure => None,
            Answer::At(_) => Some(named(field, answers, words)),
        })
        .collect()
}

/// A field's short name with its answer; a plain "yes" goes without saying.
pub fn named(field: Field, answers: &Answers, words: &Words) -> String {
    let key = format!("urgency.name.{field}");
    let name = words.say(&key);
    match (field.scale(), answers.text(field)) {
        (Scale::OneOf(["no", "yes"]), Some(term)) if term == "yes" => name.to_owned(),
        (Scale::UpTo(most), Some(number)) if number != NOT_SURE => {
            format!("{name} {number}/{most}")
        }
        (Scale::Hours, Some(hours)) if hours != NOT_SURE => {
            format!("{name}: {}", began(&hours, words))
        }
        (Scale::OneOf(terms), Some(term))
            if terms.contains(&term.as_str()) && !terms.contains(&"yes") =>
        {
            format!("{name}: {}", words.say(&format!("urgency.{field}.{term}")))
        }
        (_, Some(term)) => format!("{name}: {}", words.say(&format!("urgency.answer.{term}"))),
        (_, None) => name.to_owned(),
    }
}

/// After how many hours, in the words in which it was asked, or as given.
fn began(hours: &str, words: &Words) -> String {
    let asked = format!("urgency.onset_hours.{hours}");
    match words.get(&asked) {
        Some(asked) => asked.to_owned(),
        None => words.fill("began.after", &[("hours", hours)]),
    }
}

/// A line that is not too long for a list.
pub fn shortened(line: String) -> String {
    if line.chars().count() <= GIST {
        return line;
    }
    let start: String = line.chars().take(GIST - 1).collect();
    start.trim_end().to_owned() + "…"
}

/// The words for a trend, empty when it was not said.
pub fn trend(report: &Report, words: &Words) -> String {
    match report.answers.text(Field::Trend) {
        Some(trend) if trend != NOT_SURE => words.say(&format!("urgency.trend.{trend}")).to_owned(),
        _ => String::new(),
    }
}

/// As their sender sees them.
pub fn cards(
    studio: &Studio,
    source: &Source,
    wall: &Wall<'_>,
    now: DateTime<Utc>,
) -> Vec<SentCard> {
    let reports = source.reports.iter();
    reports
        .map(|held| card(studio, source, held, wall, now))
        .collect()
}

fn card(
    studio: &Studio,
    source: &Source,
    held: &Held,
    wall: &Wall<'_>,
    now: DateTime<Utc>,
) -> SentCard {
    let urgency = &studio.content.catalogue.urgency;
    let asked = urgency.follow_ups();
    // For as long after a report as reports are taken after a visit.
    let last =
        held.received_at + TimeDelta::days(urgency.whole("report_days").unwrap_or_default().into());
    let due = asked.due(held.received_at, now, last);
    let due = due.filter(|hours| held.followed.iter().all(|one| one.asked_hours != *hours));
    let when = |at| wall.moment(at, now).text;
    let mut steps = Vec::new();
    if let Some(at) = held.seen_at {
        let values = [("studio", source.studio.name.as_str()), ("when", &when(at))];
        steps.push(wall.words.fill("client.reports.seen", &values));
    }
    for one in &held.followed {
        let how = wall
            .words
            .say(&format!("client.follow.{}", one.how))
            .to_lowercase();
        let at = when(one.answered_at);
        steps.push(
            wall.words
                .fill("client.follow.said", &[("when", &at), ("how", &how)]),
        );
    }
    if let (None, Some(next)) = (
        due,
        asked.next(held.received_at, now).filter(|at| *at <= last),
    ) {
        steps.push(
            wall.words
                .fill("client.follow.next", &[("when", &when(next))]),
        );
    }
    if held.waiting && !held.is_answered() {
        let (replies, name) = (Replies::or_usual(studio), &source.studio.name);
        steps.push(replies.promised(wall.words, name, held.level()));
    }
    let latest = held.followed.last();
    SentCard {
        steps,
        now: latest.map_or_else(Vec::new, |one| {
            advised::of_page(studio, source, &one.judged.advice)
        }),
        ask: due.unwrap_or_default(),
        id: held.id,
        received: wall.moment(held.received_at, now),
        gist: gist(&held.report, wall.words),
        answers: answers(&held.answers, wall, now),
        agreed: String::new(),
        settled: !held.waiting,
    }
}

/// The answers, oldest first.
pub fn answers(
    answers: &[reports::Answer],
    wall: &Wall<'_>,
    now: DateTime<Utc>,
) -> Vec<AnswerCard> {
    answers
        .iter()
        .map(|answer| AnswerCard {
            by: answer.by.clone(),
            at: wall.moment(answer.at, now),
            text: answer.text.clone(),
        })
        .collect()
}

/// As the artist sees it in a list.
pub fn line(line: &Line, replies: &Replies<'_>, wall: &Wall<'_>, now: DateTime<Utc>) -> ReportLine {
    let held = &line.held;
    let waits = replies.of(held, wall.words, now);
    ReportLine {
        id: held.id,
        first_name: line.first_name.clone(),
        received: wall.moment(held.received_at, now),
        level: held.level(),
        gist: gist(&held.report, wall.words),
        trend: trend(&held.latest().0, wall.words),
        waits: waits.said,
        overdue: waits.overdue,
        unseen: held.is_unseen(),
        answered: held.is_answered(),
        settled: !held.waiting,
        done: super::visits::done(&line.treatments, wall.words),
        visit_finished: wall.moment(line.visit_finished, now),
    }
}
