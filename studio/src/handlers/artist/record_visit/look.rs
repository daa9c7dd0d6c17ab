//! The part of the form that depends on who was chosen: what has come back of the hair removed earlier, and what changes
//! the forecast. It is always about one client, named in `looked_at`; what was ticked about one is never kept for another.

use chrono::{DateTime, Utc};
use shared_types::{
    care_plan::learned::removal_before,
    catalogue::{Catalogue, flag::Flag},
    page::form::Filled,
    visit::{Area, Observation, Observed, Visit},
};

use super::super::check::Check;

/// Every field of this part.
pub const FIELDS: &[&str] = &[
    "look_up",
    "looked_at",
    "flags",
    "seen_brow",
    "seen_upper_lash",
    "seen_lower_lash",
    "seen_upper_lip",
    "seen_chin",
    "seen_side_of_face",
    "seen_hairline",
    "first_hairs_brow",
    "first_hairs_upper_lash",
    "first_hairs_lower_lash",
    "first_hairs_upper_lip",
    "first_hairs_chin",
    "first_hairs_side_of_face",
    "first_hairs_hairline",
];

fn seen(area: Area) -> String {
    format!("seen_{area}")
}

fn first_hairs(area: Area) -> String {
    format!("first_hairs_{area}")
}

/// What was last noted of the client whose visits these are, by their end.
fn last_flags(visits: &[Visit]) -> &[Flag] {
    visits.last().map_or(&[], |visit| visit.flags.as_slice())
}

fn fits(form: &Filled) -> bool {
    form.value("looked_at") == form.value("client")
}

/// Makes this part fit the chosen client, whose visits these are: what was ticked about someone else goes, and what was
/// last noted is ticked.
pub fn fit(form: &mut Filled, visits: &[Visit]) {
    if fits(form) {
        return;
    }
    if !form.value("looked_at").is_empty() {
        form.forget("flags");
        for area in Area::ALL {
            form.forget(&seen(*area));
            form.forget(&first_hairs(*area));
        }
    }
    for flag in last_flags(visits) {
        if !form.has("flags", flag.term()) {
            form.put("flags", flag.term());
        }
    }
    let client = form.value("client").to_owned();
    form.forget("looked_at");
    form.put("looked_at", client);
}

/// Notes what must not be recorded as it stands, because the form was filled in for somebody else, or without what was
/// last noted. `name` is the chosen client's.
pub fn check_client(check: &mut Check<'_>, form: &Filled, visits: &[Visit], name: &str) {
    if fits(form) {
        return;
    }
    let told = |field: &str| !form.value(field).is_empty();
    let of_hair = Area::ALL
        .iter()
        .any(|area| told(&seen(*area)) || told(&first_hairs(*area)));
    if told("looked_at") && (of_hair || told("flags")) {
        check.fault("client", "fault.looked_at_another", &[("name", name)]);
    } else if last_flags(visits)
        .iter()
        .any(|flag| !form.has("flags", flag.term()))
    {
        check.fault("client", "fault.flags_known", &[("name", name)]);
    }
}

/// What changes the forecast, in the order of [`Flag::ALL`], each once.
pub fn read_flags(check: &mut Check<'_>, form: &Filled) -> Vec<Flag> {
    let mut flags = Vec::new();
    for given in form.all("flags") {
        match given.parse() {
            Ok(flag) => flags.push(flag),
            Err(_) => check.fault("flags", "fault.unknown_choice", &[]),
        }
    }
    flags.sort_unstable();
    flags.dedup();
    flags
}

/// What was seen at a visit that ended at `at`, of what was removed before it.
pub fn read_observations(
    check: &mut Check<'_>,
    form: &Filled,
    catalogue: &Catalogue,
    visits: &[Visit],
    at: DateTime<Utc>,
) -> Vec<Observation> {
    let mut observations = Vec::new();
    for area in Area::ALL {
        let (share_field, day_field) = (seen(*area), first_hairs(*area));
        let (share, day) = (
            form.value(&share_field).to_owned(),
            form.value(&day_field).trim().to_owned(),
        );
        if share.is_empty() && day.is_empty() {
            continue;
        }
        let Some(removal) = removal_before(catalogue, visits, *area, at) else {
            check.fault(&share_field, "fault.nothing_removed", &[]);
            continue;
        };
        let mut note = |what| observations.push(Observation { area: *area, what });
        if !share.is_empty() {
            match share.parse() {
                Ok(share) => note(Observed::Share(share)),
                Err(_) => check.fault(&share_field, "fault.unknown_choice", &[]),
            }
        }
        if !day.is_empty() {
            let last = removal.days.ceil();
            match day.parse::<u16>() {
                Ok(day) if day > 0 && f64::from(day) <= last => note(Observed::FirstHairs(day)),
                _ => check.fault(
                    &day_field,
                    "fault.first_hairs",
                    &[("days", &last.to_string())],
                ),
            }
        }
    }
    observations
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_area_has_its_fields() {
        for area in Area::ALL {
            assert!(FIELDS.contains(&seen(*area).as_str()), "{area}");
            assert!(FIELDS.contains(&first_hairs(*area).as_str()), "{area}");
        }
        assert_eq!(FIELDS.len(), 3 + 2 * Area::ALL.len());
    }
}
