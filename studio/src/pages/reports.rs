//! Reports as cards, lines and screens.

use chrono::{DateTime, Utc};
use shared_types::{
    page::{
        artist::ReportLine,
        client::{AnswerCard, SentCard},
    },
    reaction::Report,
    words::Words,
};

use super::wall::Wall;
use crate::record::reports::{Answer, Held, inbox::Line};

/// Characters of a report or a wish in a list.
const GIST: usize = 140;

/// Signs and words, shortened to a line.
pub fn gist(report: &Report, words: &Words) -> String {
    let mut parts: Vec<&str> = Vec::new();
    let signs: Vec<String> = report
        .signs
        .iter()
        .map(|sign| format!("sign.{sign}"))
        .collect();
    parts.extend(signs.iter().map(|key| words.say(key)));
    let said = report
        .words
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ");
    let mut line = parts.join(" · ");
    if !said.is_empty() {
        if !line.is_empty() {
            line.push_str(" · ");
        }
        line.push_str(&said);
    }
    shortened(line)
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
    report.trend.map_or_else(String::new, |trend| {
        words.say(&format!("trend.{trend}")).to_owned()
    })
}

/// As its sender sees it.
pub fn card(held: &Held, wall: &Wall<'_>, now: DateTime<Utc>) -> SentCard {
    SentCard {
        id: held.id,
        received: wall.moment(held.received_at, now),
        gist: gist(&held.report, wall.words),
        answers: answers(&held.answers, wall, now),
        agreed: String::new(),
        settled: !held.waiting,
    }
}

/// The answers, oldest first.
pub fn answers(answers: &[Answer], wall: &Wall<'_>, now: DateTime<Utc>) -> Vec<AnswerCard> {
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
pub fn line(line: &Line, wall: &Wall<'_>, now: DateTime<Utc>) -> ReportLine {
    ReportLine {
        id: line.id,
        first_name: line.first_name.clone(),
        received: wall.moment(line.received_at, now),
        gist: gist(&line.report, wall.words),
        trend: trend(&line.report, wall.words),
        answered: line.answered,
        settled: !line.waiting,
        done: super::visits::done(&line.treatments, wall.words),
        visit_finished: wall.moment(line.visit_finished, now),
    }
}
