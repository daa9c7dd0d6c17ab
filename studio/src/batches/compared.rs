//! One batch compared with all other visits: what the screen and `studio batches` both say.

use serde::Serialize;
use shared_types::{catalogue::batches::BatchRules, words::Words};

use super::{Because, Group, Judged, Serious, Stand, interval, judge};

/// What was counted for one batch.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Counted {
    #[serde(skip_serializing_if = "Option::is_none")]
    pub batch: Option<String>,
    pub with: Counts,
    pub without: Counts,
    #[serde(flatten)]
    pub serious: Serious,
}

/// Visits that used the batch, or did not.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Counts {
    pub reactions: u32,
    pub visits: u32,
    /// Visits after which the client answered at all.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub answered: Option<u32>,
}

impl Counts {
    fn group(self) -> Group {
        Group {
            reactions: self.reactions,
            visits: self.visits,
        }
    }
}

/// What is said about one batch.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Compared {
    #[serde(skip_serializing_if = "Option::is_none")]
    pub batch: Option<String>,
    pub verdict: Stand,
    pub because: Vec<Because>,
    pub exact_test: ExactTest,
    pub with: Share,
    pub without: Share,
    /// Descriptive only.
    pub ratio: Option<f64>,
    /// The verdict and what to bear in mind, in words.
    pub said: Vec<String>,
}

#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ExactTest {
    pub one_sided: f64,
    pub compared: u32,
    /// How often at least one of so many batches is below the limit by chance alone.
    pub by_chance: f64,
    /// The limit that keeps that at the limit of one.
    pub shared_limit: f64,
}

#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Share {
    pub reactions: u32,
    pub visits: u32,
    pub rate: Option<f64>,
    pub low: f64,
    pub high: f64,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub answered: Option<u32>,
}

/// Compares one batch, which is one of so many that somebody looked at.
pub fn compare(counted: &Counted, compared: u32, rules: &BatchRules, words: &Words) -> Compared {
    let (with, without) = (counted.with.group(), counted.without.group());
    let judged = judge(rules, with, without, counted.serious);
    let limit = rules.look_below.value;
    Compared {
        batch: counted.batch.clone(),
        verdict: judged.stand,
        because: judged.because.clone(),
        exact_test: ExactTest {
            one_sided: judged.one_sided,
            compared,
            by_chance: 1.0 - (1.0 - limit).powf(f64::from(compared)),
            shared_limit: limit / f64::from(compared),
        },
        with: Share::of(counted.with, rules.interval.value),
        without: Share::of(counted.without, rules.interval.value),
        ratio: judged.ratio,
        said: said(counted, compared, &judged, words),
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

fn said(counted: &Counted, compared: u32, judged: &Judged, words: &Words) -> Vec<String> {
    let (with, without) = (counted.with, counted.without);
    let mut said = vec![
        words
            .say(&format!("batches.verdict.{}", judged.stand.term()))
            .to_owned(),
    ];
    for because in &judged.because {
        let key = format!("batches.because.{}", because.term());
        said.push(words.fill(&key, &[("n", &counted.serious.same_pattern.to_string())]));
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
