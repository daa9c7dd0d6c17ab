//! The zones of the brows in the form of a visit: kept from the client's last visit, unless the artist changes them.

use chrono::{DateTime, NaiveDate, Utc};
use chrono_tz::Tz;
use shared_types::{page::form::Filled, visit::Visit, zones::Zones};

use super::{super::check::Check, before};
use crate::advice;

/// Whose marks the form began with: a client's id, or empty.
const OF: &str = "zones_of";

/// Every field of this part.
pub const FIELDS: &[&str] = &[
    OF,
    "zone_left_front",
    "zone_left_body",
    "zone_left_arch",
    "zone_left_tail",
    "zone_left_above",
    "zone_left_below",
    "zone_right_front",
    "zone_right_body",
    "zone_right_arch",
    "zone_right_tail",
    "zone_right_above",
    "zone_right_below",
];

/// Makes this part fit the chosen client, whose visits these are, by their end: what is marked goes over what is kept of
/// them, but not what began as somebody else's.
pub fn fit(form: &mut Filled, visits: &[Visit]) {
    let client = form.value("client").to_owned();
    if form.value(OF) == client {
        return;
    }
    let marked = if are_of_another(form) {
        Zones::default()
    } else {
        Zones::in_form(form)
    };
    let kept = visits
        .last()
        .map_or_else(Zones::default, |visit| visit.zones);
    marked.over(kept).put_in(form);
    form.forget(OF);
    form.put(OF, client);
}

/// Whether the form began with somebody else's marks.
fn are_of_another(form: &Filled) -> bool {
    let of = form.value(OF);
    !of.is_empty() && of != form.value("client")
}

/// The marks of a visit that ended at `end`. A form that began without a client's marks adds to those that are kept, so
/// that a client chosen from the list loses none.
pub fn read(check: &mut Check<'_>, form: &Filled, visits: &[Visit], end: DateTime<Utc>) -> Zones {
    if Zones::is_mistaken(form) {
        check.fault("zones", "fault.unknown_choice", &[]);
    } else if are_of_another(form) {
        check.fault("zones", "fault.zones_of_another", &[]);
    }
    let marked = Zones::in_form(form);
    if !form.value(OF).is_empty() {
        return marked;
    }
    let last = visits.iter().rev().find(|visit| visit.finished_at < end);
    marked.over(last.map_or_else(Zones::default, |visit| visit.zones))
}

/// The marks of the client's visits before this one with their days at the studio, the latest first.
pub fn earlier(visits: &[Visit], visit: &Visit, zone: Tz) -> Vec<(NaiveDate, Zones)> {
    advice::earlier_zones(before(visits, visit), zone)
}
