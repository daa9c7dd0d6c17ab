//! Values of the question that stand in for those of the content.

use serde::Deserialize;
use shared_types::{
    catalogue::hair::{AgeFigures, HairFigures},
    regrowth::{
        curve::Regrowth,
        parameters::{ParameterError, Parameters},
    },
};

use super::super::CliError;

macro_rules! overrides {
    ($($name:ident),+ $(,)?) => {
        /// Values that stand in for those of the content.
        #[derive(Default, Deserialize)]
        #[serde(deny_unknown_fields)]
        pub struct Overrides { $(#[serde(default)] $name: Option<f64>),+ }

        impl Overrides {
            pub fn has(&self, name: &str) -> bool {
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

/// The wait before a new hair starts is that of the content or of the age, whatever else is overridden: half the speed
/// doubles the transit and leaves the wait. Only another 90 % time or another shape calibrates it anew.
pub fn parameters(
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

/// A parameter that does not fit, by the field that is to blame.
pub fn refused(error: &ParameterError, overrides: &Overrides) -> CliError {
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
