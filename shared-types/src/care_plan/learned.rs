//! What the visits of one client say about their own pace.

use chrono::{DateTime, Utc};

use super::{Person, PlanError, regrowth_after};
use crate::{
    catalogue::{
        Catalogue,
        flag::{Effect, Flag},
        treatment::Removal,
    },
    regrowth::clock::{Clock, Evidence},
    visit::{Area, Observation, Treatment, Visit},
};

const SECONDS_OF_A_DAY: f64 = 86_400.0;

/// A removal of hair of which something may be seen again later.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EarlierRemoval<'a> {
    pub visit: &'a Visit,
    pub treatment: Treatment,
    pub removal: &'a Removal,
    /// Elapsed since, whole or not, above 0.
    pub days: f64,
}

/// How hair was removed in an area at a visit: by the first of its treatments that removes hair there.
pub fn removal_in<'a>(
    catalogue: &'a Catalogue,
    treatments: &[Treatment],
    area: Area,
) -> Option<(Treatment, &'a Removal)> {
    let mut treatments = treatments.to_vec();
    treatments.sort_unstable();
    treatments.into_iter().find_map(|treatment| {
        let entry = catalogue.treatments.get(&treatment)?;
        let removal = entry.removal.as_ref().filter(|_| entry.area == area)?;
        Some((treatment, removal))
    })
}

/// The latest removal in an area before an instant, among visits in any order.
pub fn removal_before<'a>(
    catalogue: &'a Catalogue,
    visits: &'a [Visit],
    area: Area,
    at: DateTime<Utc>,
) -> Option<EarlierRemoval<'a>> {
    let removals = visits.iter().filter_map(|visit| {
        let (treatment, removal) = removal_in(catalogue, &visit.treatments, area)?;
        let seconds = (at - visit.finished_at).num_seconds();
        (seconds > 0).then_some(EarlierRemoval {
            visit,
            treatment,
            removal,
            days: seconds as f64 / SECONDS_OF_A_DAY,
        })
    });
    removals.max_by_key(|one| (one.visit.finished_at, one.visit.id))
}

impl Person {
    /// The person as they are at the end of the latest of their visits, which are given in any order: one clock, since
    /// a pace is a person's and not an area's, from everything that was seen; and the flags of the latest visit.
    ///
    /// Each sighting is compared with the regrowth of factor 1 after the removal that it speaks of. What was seen of hair
    /// for which a flag had switched the forecast off says nothing about the person's own pace, and is left out.
    ///
    /// # Errors
    /// Hair figures of the catalogue that do not work.
    pub fn learned(catalogue: &Catalogue, visits: &[Visit]) -> Result<Self, PlanError> {
        let mut sorted: Vec<&Visit> = visits.iter().collect();
        sorted.sort_by_key(|visit| (visit.finished_at, visit.id));
        let (mut evidence, mut visits_seen) = (Vec::new(), 0_u16);
        for visit in &sorted {
            let before = evidence.len();
            for observation in &visit.observations {
                evidence.extend(evidence_of(catalogue, visits, visit, *observation)?);
            }
            visits_seen = visits_seen.saturating_add(u16::from(evidence.len() > before));
        }
        Ok(Self {
            clock: (visits_seen > 0).then(|| Clock::observed(&catalogue.clock, &evidence)),
            visits_seen,
            flags: sorted
                .last()
                .map(|visit| visit.flags.clone())
                .unwrap_or_default(),
        })
    }
}

fn evidence_of(
    catalogue: &Catalogue,
    visits: &[Visit],
    visit: &Visit,
    observation: Observation,
) -> Result<Option<Evidence>, PlanError> {
    let Some(earlier) = removal_before(catalogue, visits, observation.area, visit.finished_at)
    else {
        return Ok(None);
    };
    // From the removal to the sighting, any visit between the two included.
    let switched_off = visits
        .iter()
        .filter(|one| (earlier.visit.finished_at..=visit.finished_at).contains(&one.finished_at))
        .any(|one| switches_off(catalogue, &one.flags));
    if switched_off {
        return Ok(None);
    }
    let expected = regrowth_after(catalogue, observation.area, earlier.removal)?;
    Ok(Evidence::of_sighting(
        observation.what.after(earlier.days),
        &expected,
        &catalogue.clock,
    ))
}

fn switches_off(catalogue: &Catalogue, flags: &[Flag]) -> bool {
    flags.iter().any(|flag| {
        let rule = catalogue.flags.get(flag);
        rule.is_none_or(|rule| matches!(rule.effect, Effect::Off))
    })
}
