//! Whose care plan it is: their own pace, and what makes a forecast unsure or no use.

use content::Content;
use serde::Serialize;
use shared_types::{
    care_plan::Person,
    catalogue::flag::Flag,
    regrowth::{clock::Clock, flags::Outlook},
    words::Words,
};

use super::super::{
    CliError,
    forecast::answer::ClockAnswer,
    observations::{Observation, evidence},
};

/// Answered only when observations or flags were given.
#[derive(Serialize)]
pub struct ForecastAnswer {
    /// By which the windows of removed hair were worked out; `null` where there is no forecast.
    clock: Option<ClockAnswer>,
    because: Vec<FlagAnswer>,
}

#[derive(Serialize)]
struct FlagAnswer {
    id: &'static str,
    source: Vec<String>,
    text: String,
}

/// The person of a question's `observations` and `flags`.
///
/// # Errors
/// A value that is not allowed, by its field.
pub fn person(
    observations: &[Observation],
    flags: &[String],
    content: &Content,
) -> Result<Person, CliError> {
    let evidence = evidence(observations)?;
    let flags = flags
        .iter()
        .enumerate()
        .map(|(index, term)| {
            term.parse().map_err(|_| {
                let terms: Vec<_> = Flag::ALL.iter().map(|one| one.term()).collect();
                CliError::value(
                    format!("flags[{index}]"),
                    term,
                    format!("one of {}", terms.join(", ")),
                )
            })
        })
        .collect::<Result<_, _>>()?;
    Ok(Person {
        clock: (!evidence.is_empty()).then(|| Clock::observed(&content.catalogue.clock, &evidence)),
        visits_seen: u16::try_from(evidence.len()).unwrap_or(u16::MAX),
        flags,
    })
}

/// What is known of the person, in figures and sentences; nothing of somebody of whom nothing is known.
pub fn answer(person: &Person, content: &Content, words: &Words) -> Option<ForecastAnswer> {
    if *person == Person::default() {
        return None;
    }
    let catalogue = &content.catalogue;
    let (clock, because) = match person.outlook(catalogue) {
        Outlook::Forecast { clock, because } => {
            (Some(ClockAnswer::of(clock, &catalogue.clock)), because)
        }
        Outlook::Off { because } => (None, because),
    };
    let because = because.into_iter().map(|flag| FlagAnswer {
        id: flag.term(),
        source: catalogue
            .flags
            .get(&flag)
            .map(|rule| rule.sources.clone())
            .unwrap_or_default(),
        text: words.say(&format!("forecast_flag.{flag}")).to_owned(),
    });
    Some(ForecastAnswer {
        clock,
        because: because.collect(),
    })
}
