//! What is answered about batches.

use content::Content;
use serde::Serialize;
use shared_types::words::Words;

use super::{Batch, Counts};
use crate::batches::{Because, Judged, Stand, interval, judge};

#[derive(Serialize)]
pub struct Answer<'a> {
    pub batches: Vec<One<'a>>,
    pub compared: u32,
}

#[derive(Serialize)]
pub struct One<'a> {
    #[serde(skip_serializing_if = "Option::is_none")]
    batch: Option<&'a str>,
    verdict: Stand,
    because: Vec<Because>,
    exact_test: ExactTest,
    with: Share,
    without: Share,
    /// Descriptive only.
    ratio: Option<f64>,
    /// The verdict and what to bear in mind, in words.
    said: Vec<String>,
}

#[derive(Serialize)]
struct ExactTest {
    one_sided: f64,
    compared: u32,
    /// How often at least one of so many batches is below the limit by chance alone.
    by_chance: f64,
    /// The limit that keeps that at the limit of one.
    shared_limit: f64,
}

#[derive(Serialize)]
struct Share {
    reactions: u32,
    visits: u32,
    rate: Option<f64>,
    low: f64,
    high: f64,
    #[serde(skip_serializing_if = "Option::is_none")]
    answered: Option<u32>,
}

impl<'a> One<'a> {
    pub fn of(batch: &'a Batch, compared: u32, content: &Content, words: &Words) -> Self {
        let rules = &content.catalogue.batches;
        let (with, without) = (batch.with.group(), batch.without.group());
        let judged = judge(rules, with, without, batch.serious());
        let limit = rules.look_below.value;
        Self {
            batch: batch.batch.as_deref(),
            verdict: judged.stand,
            because: judged.because.clone(),
            exact_test: ExactTest {
                one_sided: judged.one_sided,
                compared,
                by_chance: 1.0 - (1.0 - limit).powf(f64::from(compared)),
                shared_limit: limit / f64::from(compared),
            },
            with: Share::of(batch.with, rules.interval.value),
            without: Share::of(batch.without, rules.interval.value),
            ratio: judged.ratio,
            said: said(batch, compared, &judged, words),
        }
    }
}

impl Share {
    fn of(counts: Counts, confidence: f64) -> Self {
        let (low, high) = interval(counts.group(), confidence);
        Self {
            reactions: counts.reactions,
            visits: counts.visits,
            rate: counts.group().rate(),
            low,
            high,
            answered: counts.answered,
        }
    }
}

fn said(batch: &Batch, compared: u32, judged: &Judged, words: &Words) -> Vec<String> {
    let (with, without) = (batch.with, batch.without);
    let mut said = vec![
        words
            .say(&format!("batches.verdict.{}", judged.stand.term()))
            .to_owned(),
    ];
    for because in &judged.because {
        let key = format!("batches.because.{}", because.term());
        said.push(words.fill(&key, &[("n", &batch.same_pattern.to_string())]));
    }
    let text = |number: u32| number.to_string();
    said.push(words.fill(
        "batches.note.counts",
        &[
            ("a", &text(with.reactions)),
            ("b", &text(with.visits)),
            ("c", &text(without.reactions)),
            ("d", &text(without.visits)),
        ],
    ));
    said.push(match (with.answered, without.answered) {
        (Some(one), Some(other)) => words.fill(
            "batches.note.unanswered",
            &[
                ("answered", &text(one + other)),
                ("visits", &text(with.visits + without.visits)),
            ],
        ),
        _ => words.say("batches.note.no_answers").to_owned(),
    });
    if compared > 1 {
        said.push(words.fill("batches.note.compared", &[("n", &text(compared))]));
    }
    said.push(words.say("batches.note.few").to_owned());
    said.push(words.say("batches.note.no_cause").to_owned());
    said
}
