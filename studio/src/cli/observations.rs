//! Times that were predicted and observed, as questions give them.

use serde::Deserialize;
use shared_types::regrowth::clock::Evidence;

use super::CliError;

/// Nobody asks for more, and nothing changes any more.
pub const LAST_DAY: f64 = 3650.0;

/// Days to the same thing (first hairs, half back …): as the curve of factor 1 predicts it, and as it was.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Observation {
    predicted_days: f64,
    observed_days: f64,
}

/// What the observations of the field `observations` say about a clock.
///
/// # Errors
/// Days that are not above 0, or too many, by the name of their field.
pub fn evidence(given: &[Observation]) -> Result<Vec<Evidence>, CliError> {
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
