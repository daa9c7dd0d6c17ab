//! The cautions that a studio has added to the catalogue's.

use chrono::{DateTime, TimeDelta, Utc};
use serde::{Deserialize, Serialize};

use super::{CarePlan, PlanError, PlanFor};
use crate::visit::Treatment;

/// One that holds after this visit, in the studio's own words.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Added {
    pub id: String,
    pub what: String,
    /// May be empty.
    pub why: String,
    pub from: DateTime<Utc>,
    pub until: DateTime<Utc>,
    /// Elapsed hours from `from` to `until`.
    pub hours: u32,
    /// The treatments after which it is asked for.
    pub because: Vec<Treatment>,
}

/// Those for the treatments of a visit, sorted by end.
pub(super) fn added(done: &[Treatment], visit: &PlanFor<'_>) -> Result<Vec<Added>, PlanError> {
    let mut added = Vec::new();
    for one in visit.beside.own.iter().flat_map(|own| &own.added) {
        let because = done.iter().filter(|done| one.treatments.contains(done));
        let because: Vec<Treatment> = because.copied().collect();
        if because.is_empty() {
            continue;
        }
        let until = visit
            .finished_at
            .checked_add_signed(TimeDelta::hours(one.hours.into()))
            .ok_or(PlanError::OutOfCalendar)?;
        added.push(Added {
            id: one.id.clone(),
            what: one.what.clone(),
            why: one.why.clone(),
            from: visit.finished_at,
            until,
            hours: one.hours,
            because,
        });
    }
    added.sort_by_key(|one| one.until);
    Ok(added)
}

impl CarePlan {
    /// The end of each caution, of the catalogue's kinds and of those that the studio added, with its hours; sorted.
    pub fn ends(&self) -> Vec<(DateTime<Utc>, u32)> {
        let of_kinds = self.cautions.iter().map(|one| (one.until, one.hours));
        let added = self.added.iter().map(|one| (one.until, one.hours));
        let mut ends: Vec<_> = of_kinds.chain(added).collect();
        ends.sort_unstable();
        ends
    }
}
