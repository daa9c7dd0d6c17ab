//! How long a zone that is let grow may take.

use chrono::NaiveDate;

use super::{Mark, Place, Zones};
use crate::{catalogue::zones::ZoneRules, regrowth::curve::Regrowth};

/// Whole days from the day on which a zone was last worked on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Wait {
    /// The first day on which the gap should begin to close: the first of the hairs pulled with the root show.
    pub begins: u32,
    /// After this day it is fair to say that little more will come. Never before `begins`.
    pub hope_until: u32,
}

/// How long a zone may take whose hairs were all pulled, by a regrowth at the person's own pace.
pub fn wait(regrowth: &Regrowth, rules: &ZoneRules) -> Wait {
    let begins = days(regrowth.emergence_days(rules.gap_closing.value));
    let hope = rules.hope_times.value * regrowth.parameters.regrown_90_days;
    Wait {
        begins,
        hope_until: days(hope.min(rules.longest_hope_days.value)).max(begins),
    }
}

/// The first whole day by which so much time is over.
fn days(time: f64) -> u32 {
    // The cast keeps within the type's bounds.
    time.ceil() as u32
}

/// The day since which a place has been let grow: that of the first visit of the unbroken row, up to the one on
/// `visit_day`, at which it was marked so. Its hairs were gone by then. `earlier` are the client's earlier visits with
/// their days, the latest first.
pub fn growing_since(
    place: Place,
    visit_day: NaiveDate,
    earlier: &[(NaiveDate, Zones)],
) -> NaiveDate {
    earlier
        .iter()
        .take_while(|(_, zones)| zones.mark(place) == Some(Mark::LetItGrow))
        .last()
        .map_or(visit_day, |(day, _)| *day)
}
