//! How sure a forecast is, and what it rests on.

use shared_types::catalogue::{
    Catalogue,
    figure::Confidence,
    hair::{AgeFigures, HairFigures},
};

use super::overrides::Overrides;

/// That of the 90 % time; and low for hairs that never get as long as was asked.
pub fn confidence(hair: &HairFigures, age: Option<&AgeFigures>, too_long: bool) -> Confidence {
    let of_time = age.map_or(&hair.regrown_90_days, |age| &age.regrown_90_days);
    if too_long {
        Confidence::Low
    } else {
        of_time.confidence.unwrap_or(Confidence::Low)
    }
}

/// Of every figure that was used, in the order of the parameters and then of the clock, each once.
pub fn sources(
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
