//! The weeks between in words and figures.

use shared_types::{
    care_plan::{self, CarePlan, Person, PlanError},
    catalogue::Catalogue,
    page::client::{WeekShare, Weeks},
    visit::Visit,
};

use super::{
    come_back::{Share, come_back},
    pace,
};
use crate::pages::wall::Wall;

/// Weeks that the strip shows.
const WEEKS: u8 = 12;

/// The strip of weeks for the area where hair was removed; without removal, or where no one can say when hair is back,
/// only the time to come back.
pub(super) fn weeks(
    catalogue: &Catalogue,
    visit: &Visit,
    plan: &CarePlan,
    person: &Person,
    wall: &Wall<'_>,
) -> Result<Option<Weeks>, PlanError> {
    let entry = |treatment| catalogue.treatments.get(treatment);
    let Some(first) = visit.treatments.iter().find_map(entry) else {
        return Ok(None);
    };
    let removal = visit
        .treatments
        .iter()
        .filter_map(entry)
        .find_map(|entry| Some((entry.area, entry.removal.as_ref()?)));
    let only_come_back = |area, about| Weeks {
        area,
        weeks: Vec::new(),
        come_back: come_back(plan, wall, visit.finished_at, None),
        about,
        confidence: String::new(),
    };
    let Some((area, removal)) = removal else {
        return Ok(Some(only_come_back(first.area, Vec::new())));
    };
    let common = care_plan::regrowth_after(catalogue, area, removal)?;
    let about = pace::about(catalogue, person, &common, wall.words);
    let Some(paces) = person.paces(catalogue) else {
        return Ok(Some(only_come_back(area, about)));
    };
    let regrowth = care_plan::regrowth_at(catalogue, area, removal, paces.middle)?;
    let graspable_mm = removal.graspable_mm.value;
    let share = |days: f64| Share {
        visible: regrowth.visible(days),
        graspable: regrowth.graspable(days, graspable_mm),
    };
    let weeks = (0..=WEEKS).map(|week| {
        let at = share(f64::from(week) * 7.0);
        WeekShare {
            week,
            visible: thousandths(at.visible),
            graspable: thousandths(at.graspable),
        }
    });
    Ok(Some(Weeks {
        area,
        weeks: weeks.collect(),
        come_back: come_back(plan, wall, visit.finished_at, Some(&share)),
        about,
        confidence: wall.words.say("forecast.basis").to_owned(),
    }))
}

/// A share (0 to 1) in thousandths.
fn thousandths(share: f64) -> u16 {
    (share.clamp(0.0, 1.0) * 1000.0).round() as u16
}
