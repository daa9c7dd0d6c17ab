//! `studio batches`: whether the reactions after one batch of a product are worth a look.
//!
//! One batch as the design gives it, or several under `batches`, each with the same fields. `compared` says among how many
//! batches somebody looked, when that is more than are given.

use content::Content;
use serde::{Deserialize, Serialize};

use super::{CliError, input};
use crate::batches::{self, Compared, Counted, Serious, compare};

/// More visits than any studio has; keeps typing errors out.
const MOST_VISITS: u32 = 1_000_000;
/// More batches than anybody compares.
const MOST_BATCHES: usize = 1000;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Question {
    #[serde(default)]
    with: Option<Counts>,
    #[serde(default)]
    without: Option<Counts>,
    #[serde(default)]
    batch: Option<String>,
    #[serde(default)]
    serious: u32,
    #[serde(default)]
    serious_plausible: u32,
    #[serde(default)]
    same_pattern: u32,
    #[serde(default)]
    batches: Option<Vec<Batch>>,
    #[serde(default)]
    compared: Option<u32>,
    #[serde(default)]
    language: Option<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Batch {
    #[serde(default)]
    batch: Option<String>,
    with: Counts,
    without: Counts,
    #[serde(default)]
    serious: u32,
    #[serde(default)]
    serious_plausible: u32,
    #[serde(default)]
    same_pattern: u32,
}

#[derive(Clone, Copy, Deserialize)]
#[serde(deny_unknown_fields)]
struct Counts {
    reactions: u32,
    visits: u32,
    /// Visits after which the client answered at all.
    #[serde(default)]
    answered: Option<u32>,
}

#[derive(Serialize)]
struct Answer {
    batches: Vec<Compared>,
    compared: u32,
}

/// Answers the counts of batches in JSON with tests, intervals and a careful word in JSON.
///
/// # Errors
/// Input that is no JSON, an unknown field, a value that is not allowed: each by the name of its field.
pub fn batches(input: &str, content: &Content) -> Result<String, CliError> {
    let question: Question = input::read(input)?;
    let tag = question.language.as_deref().unwrap_or("en");
    let words = content.languages.get(tag).ok_or_else(|| {
        let known: Vec<_> = content.languages.keys().map(String::as_str).collect();
        CliError::value("language", tag, format!("one of {}", known.join(", ")))
    })?;
    let several = question.batches.is_some();
    let compared = question.compared;
    let given = listed(question)?;
    let compared = match compared {
        Some(compared) if (compared as usize) < given.len() || compared == 0 => {
            let least = format!("{} or more: so many are given", given.len());
            return Err(CliError::value("compared", compared, least));
        }
        Some(compared) => compared,
        None => u32::try_from(given.len()).unwrap_or(u32::MAX),
    };
    let mut answers = Vec::new();
    for (at, batch) in given.iter().enumerate() {
        let place = if several {
            format!("batches[{at}].")
        } else {
            String::new()
        };
        batch.check(&place)?;
        let rules = &content.catalogue.batches;
        answers.push(compare(&batch.counted(), compared, rules, words));
    }
    let json = match answers.as_slice() {
        [one] if !several => serde_json::to_string_pretty(one),
        _ => serde_json::to_string_pretty(&Answer {
            batches: answers,
            compared,
        }),
    };
    json.map_err(CliError::Answer)
}

fn listed(question: Question) -> Result<Vec<Batch>, CliError> {
    let missing = |field: &str| CliError::Shape {
        field: field.to_owned(),
        what: format!("missing field `{field}`"),
    };
    match (question.batches, question.with, question.without) {
        (Some(batches), None, None) => {
            let alone = question.batch.is_none()
                && question.serious == 0
                && question.serious_plausible == 0
                && question.same_pattern == 0;
            if !alone {
                let what = "say it inside each of `batches`".to_owned();
                let field = "batches".to_owned();
                return Err(CliError::Shape { field, what });
            }
            if batches.is_empty() || batches.len() > MOST_BATCHES {
                let allowed = format!("1 to {MOST_BATCHES} batches");
                return Err(CliError::value("batches", batches.len(), allowed));
            }
            Ok(batches)
        }
        (Some(_), ..) => Err(CliError::Shape {
            field: "batches".to_owned(),
            what: "give either `batches` or `with` and `without`".to_owned(),
        }),
        (None, None, _) => Err(missing("with")),
        (None, _, None) => Err(missing("without")),
        (None, Some(with), Some(without)) => Ok(vec![Batch {
            batch: question.batch,
            with,
            without,
            serious: question.serious,
            serious_plausible: question.serious_plausible,
            same_pattern: question.same_pattern,
        }]),
    }
}

impl Batch {
    fn check(&self, place: &str) -> Result<(), CliError> {
        for (name, counts) in [("with", self.with), ("without", self.without)] {
            let refused = |field: &str, given: u32, allowed: String| {
                Err(CliError::value(
                    format!("{place}{name}.{field}"),
                    given,
                    allowed,
                ))
            };
            if counts.visits > MOST_VISITS {
                return refused("visits", counts.visits, format!("0 to {MOST_VISITS}"));
            }
            if let Some(answered) = counts.answered.filter(|given| *given > counts.visits) {
                return refused("answered", answered, format!("0 to {}", counts.visits));
            }
            let most = counts.answered.unwrap_or(counts.visits);
            if counts.reactions > most {
                return refused("reactions", counts.reactions, format!("0 to {most}"));
            }
        }
        let reactions = self.with.reactions;
        for (name, given, most) in [
            ("serious", self.serious, reactions),
            ("serious_plausible", self.serious_plausible, self.serious),
            ("same_pattern", self.same_pattern, reactions),
        ] {
            if given > most {
                return Err(CliError::value(
                    format!("{place}{name}"),
                    given,
                    format!("0 to {most}"),
                ));
            }
        }
        Ok(())
    }

    fn counted(&self) -> Counted {
        let counts = |counts: Counts| batches::Counts {
            reactions: counts.reactions,
            visits: counts.visits,
            answered: counts.answered,
        };
        Counted {
            batch: self.batch.clone(),
            with: counts(self.with),
            without: counts(self.without),
            serious: Serious {
                reports: self.serious,
                plausible: self.serious_plausible,
                same_pattern: self.same_pattern,
            },
        }
    }
}

#[cfg(test)]
mod tests;
