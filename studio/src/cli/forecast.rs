//! `studio forecast`: how the hair of one area returns.
//!
//! Days are calendar days from the removal. The curve is the person's own: with observations everything comes as much
//! sooner or later as the clock says, V(factor × day) for what can be seen. The example of the design therefore shows
//! 0.0683 on day 7 without its observation, and 0.0704 with it.

mod answer;

use content::Content;
use serde::Deserialize;
use shared_types::{
    catalogue::{
        Catalogue,
        figure::Confidence,
        hair::{AgeBand, AgeFigures, HairFigures},
    },
    regrowth::{
        clock::{Clock, Evidence},
        curve::Regrowth,
        parameters::{ParameterError, Parameters},
    },
    visit::Area,
};

use super::{CliError, input};
use answer::{Answer, ClockAnswer, CurveAnswer, EmergenceAnswer, TintAnswer};

/// Nobody asks for more, and nothing changes any more.
const LAST_DAY: f64 = 3650.0;

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

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Observation {
    predicted_days: f64,
    observed_days: f64,
}

macro_rules! overrides {
    ($($name:ident),+ $(,)?) => {
        /// Values that stand in for those of the content.
        #[derive(Default, Deserialize)]
        #[serde(deny_unknown_fields)]
        struct Overrides { $(#[serde(default)] $name: Option<f64>),+ }

        impl Overrides {
            fn has(&self, name: &str) -> bool {
                match name {
                    $(stringify!($name) => self.$name.is_some(),)+
                    _ => false,
                }
            }

            fn over(&self, given: Parameters) -> Parameters {
                Parameters { $($name: self.$name.unwrap_or(given.$name),)+ ..given }
            }
        }
    };
}

overrides! {
    speed_mm_per_day, depth_mm, anagen_days, catagen_days, telogen_days, kenogen_days, regrown_90_days, latency_shape,
    broken_fraction, break_depth_mm, lost_fraction, wash_keep, washes_per_day,
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
    let (low, high) = clock.band(catalogue.clock.band.value);
    let answer = Answer {
        clock: ClockAnswer {
            factor: clock.factor(),
            low,
            high,
        },
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

fn evidence(given: &[Observation]) -> Result<Vec<Evidence>, CliError> {
    let allowed = |days: f64| days > 0.0 && days <= LAST_DAY;
    given
        .iter()
        .enumerate()
        .map(|(index, one)| {
            let refused = |name, days: f64| {
                CliError::value(
                    format!("observations[{index}].{name}"),
                    days,
                    format!("more than 0, at most {LAST_DAY}"),
                )
            };
            if !allowed(one.predicted_days) {
                return Err(refused("predicted_days", one.predicted_days));
            }
            Evidence::of_days(one.predicted_days, one.observed_days)
                .filter(|_| allowed(one.observed_days))
                .ok_or_else(|| refused("observed_days", one.observed_days))
        })
        .collect()
}

/// The wait before a new hair starts is that of the content or of the age, whatever else is overridden: half the speed
/// doubles the transit and leaves the wait. Only another 90 % time or another shape calibrates it anew.
fn parameters(
    hair: &HairFigures,
    age: Option<&AgeFigures>,
    overrides: &Overrides,
) -> Result<Parameters, CliError> {
    let known = age.map_or(hair.into(), |age| Parameters::from(hair).at_age(age));
    let scale_days = Regrowth::new(known)
        .map_err(|error| refused(&error, overrides))?
        .latency
        .scale_days;
    let anew = overrides.regrown_90_days.is_some() || overrides.latency_shape.is_some();
    let parameters = overrides.over(Parameters {
        latency_scale_days: (!anew).then_some(scale_days),
        ..known
    });
    parameters
        .check()
        .map_err(|error| refused(&error, overrides))?;
    Ok(parameters)
}

fn refused(error: &ParameterError, overrides: &Overrides) -> CliError {
    if overrides.has(error.name) {
        CliError::value(
            format!("override.{}", error.name),
            error.given,
            error.allowed.clone(),
        )
    } else {
        // A value of the content that no longer fits beside one that was overridden.
        let given = format!("{} {}", error.name, error.given);
        let allowed = format!(
            "{} for {}; give it as well or change the others",
            error.allowed, error.name
        );
        CliError::value("override", given, allowed)
    }
}

/// That of the 90 % time; and low for hairs that never get as long as was asked.
fn confidence(hair: &HairFigures, age: Option<&AgeFigures>, too_long: bool) -> Confidence {
    let of_time = age.map_or(&hair.regrown_90_days, |age| &age.regrown_90_days);
    if too_long {
        Confidence::Low
    } else {
        of_time.confidence.unwrap_or(Confidence::Low)
    }
}

/// Of every figure that was used, in the order of the parameters and then of the clock, each once.
fn sources(
    catalogue: &Catalogue,
    hair: &HairFigures,
    age: Option<&AgeFigures>,
    overrides: &Overrides,
) -> Vec<String> {
    let of_age = age.map(AgeFigures::all);
    let by_age = of_age.iter().flatten();
    let by_age_names: Vec<_> = by_age.clone().map(|(name, ..)| *name).collect();
    let all_ages = hair.all();
    let used = by_age
        .chain(
            all_ages
                .iter()
                .filter(|(name, ..)| !by_age_names.contains(name)),
        )
        .filter(|(name, ..)| !overrides.has(name))
        .map(|(_, figure, _)| &figure.source);
    let clock = [&catalogue.clock.prior_sd, &catalogue.clock.noise_sd].map(|one| &one.source);
    let mut sources: Vec<String> = Vec::new();
    for source in used.chain(clock) {
        if !sources.contains(source) {
            sources.push(source.clone());
        }
    }
    sources
}

#[cfg(test)]
mod tests;
