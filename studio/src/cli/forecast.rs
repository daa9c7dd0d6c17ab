//! `studio forecast`: how the hair of one area returns.
//!
//! Days are calendar days from the removal. The curve is the person's own: with observations everything comes as much
//! sooner or later as the clock says, V(factor × day) for what can be seen. The example of the design therefore shows
//! 0.0683 on day 7 without its observation, and 0.0704 with it.

pub mod answer;
mod basis;
mod overrides;

use content::Content;
use serde::Deserialize;
use shared_types::{
    catalogue::{
        Catalogue,
        hair::{AgeBand, AgeFigures, HairFigures},
    },
    regrowth::{clock::Clock, curve::Regrowth},
    visit::Area,
};

use super::{
    CliError, input,
    observations::{LAST_DAY, Observation, evidence},
};
use answer::{Answer, ClockAnswer, CurveAnswer, EmergenceAnswer, TintAnswer};
use basis::{confidence, sources};
use overrides::{Overrides, parameters, refused};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Question {
    area: String,
    #[serde(default)]
    age_band: Option<String>,
    /// The length that can be held; that of a removal in this area when it is left out.
    #[serde(default)]
    graspable_mm: Option<f64>,
    days: Vec<f64>,
    #[serde(default, rename = "override")]
    overrides: Overrides,
    #[serde(default)]
    observations: Vec<Observation>,
}

/// Answers one question in JSON with the forecast in JSON; both as the design gives them.
///
/// # Errors
/// Input that is no JSON, an unknown field, a value that is not allowed: each by the name of its field.
pub fn forecast(input: &str, content: &Content) -> Result<String, CliError> {
    let question: Question = input::read(input)?;
    let catalogue = &content.catalogue;
    let (area, hair) = hair(&question.area, catalogue)?;
    let age = age(question.age_band.as_deref(), area, hair)?;
    let length = length(question.graspable_mm, area, catalogue)?;
    check_days(&question.days)?;
    let evidence = evidence(&question.observations)?;

    let clock = Clock::observed(&catalogue.clock, &evidence);
    let parameters = parameters(hair, age, &question.overrides)?;
    let own = Regrowth::new(parameters.at_pace(clock.factor()))
        .map_err(|error| refused(&error, &question.overrides))?;
    let answer = Answer {
        clock: ClockAnswer::of(clock, &catalogue.clock),
        emergence_days: EmergenceAnswer {
            p10: own.emergence_days(0.1),
            p50: own.emergence_days(0.5),
            p90: own.emergence_days(0.9),
        },
        curve: question
            .days
            .iter()
            .map(|day| CurveAnswer {
                day: *day,
                visible: own.visible(*day),
                graspable: own.graspable(*day, length),
            })
            .collect(),
        tint: question
            .days
            .iter()
            .map(|day| TintAnswer {
                day: *day,
                kept: own.tint_kept(*day),
            })
            .collect(),
        confidence: confidence(hair, age, length > parameters.full_length_mm()).term(),
        sources: sources(catalogue, hair, age, &question.overrides),
    };
    serde_json::to_string_pretty(&answer).map_err(CliError::Answer)
}

fn hair<'a>(given: &str, catalogue: &'a Catalogue) -> Result<(Area, &'a HairFigures), CliError> {
    let known = given.parse::<Area>().ok();
    known
        .and_then(|area| Some((area, catalogue.hair.get(&area)?)))
        .ok_or_else(|| {
            let areas: Vec<_> = catalogue.hair.keys().map(|one| one.term()).collect();
            CliError::value("area", given, format!("one of {}", areas.join(", ")))
        })
}

fn age<'a>(
    given: Option<&str>,
    area: Area,
    hair: &'a HairFigures,
) -> Result<Option<&'a AgeFigures>, CliError> {
    let Some(given) = given else { return Ok(None) };
    let known = given.parse::<AgeBand>().ok();
    let figures = known.and_then(|band| hair.by_age.get(&band));
    figures.map(Some).ok_or_else(|| {
        let bands: Vec<_> = hair.by_age.keys().map(|one| one.term()).collect();
        let allowed = if bands.is_empty() {
            format!("null: there are no figures by age for `{area}`")
        } else {
            format!("null or one of {}", bands.join(", "))
        };
        CliError::value("age_band", given, allowed)
    })
}

/// Given, or the length of the first removal in this area; failing that, of the first removal at all.
fn length(given: Option<f64>, area: Area, catalogue: &Catalogue) -> Result<f64, CliError> {
    if let Some(length) = given {
        return if (0.0..=100.0).contains(&length) {
            Ok(length)
        } else {
            Err(CliError::value("graspable_mm", length, "0 to 100"))
        };
    }
    let removals = || {
        let entries = catalogue.treatments.values();
        entries.filter_map(|entry| Some((entry.area, entry.removal.as_ref()?.graspable_mm.value)))
    };
    removals()
        .find(|(of, _)| *of == area)
        .or_else(|| removals().next())
        .map(|(_, length)| length)
        .ok_or_else(|| CliError::value("graspable_mm", "nothing", "0 to 100"))
}

fn check_days(given: &[f64]) -> Result<(), CliError> {
    let outside = given.iter().position(|day| !(0.0..=LAST_DAY).contains(day));
    outside.map_or(Ok(()), |index| {
        Err(CliError::value(
            format!("days[{index}]"),
            given[index],
            format!("0 to {LAST_DAY}"),
        ))
    })
}

#[cfg(test)]
mod tests;
