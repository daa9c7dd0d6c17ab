//! The weeks between in words and figures.

use shared_types::{
    care_plan::{self, CarePlan, PlanError},
    catalogue::Catalogue,
    page::client::Weeks,
    visit::Visit,
};

use super::{
    For, areas,
    come_back::{Share, come_back},
    pace,
};
use crate::pages::wall::Wall;

/// Each area's weeks, and the time to come back. Where no one can say when this person's hair is back, only the latter.
pub(super) fn weeks(
    catalogue: &Catalogue,
    visit: &Visit,
    plan: &CarePlan,
    whose: &For<'_>,
    wall: &Wall<'_>,
) -> Result<Weeks, PlanError> {
    let pace = whose.person.paces(catalogue).map(|paces| paces.middle);
    let removed = visit.treatments.iter().find_map(|treatment| {
        let entry = catalogue.treatments.get(treatment)?;
        Some((entry.area, entry.removal.as_ref()?))
    });
    let mut about = Vec::new();
    let mut returning = None;
    if let Some((area, removal)) = removed {
        let common = care_plan::regrowth_after(catalogue, area, removal)?;
        about = pace::about(catalogue, whose.person, &common, wall.words);
        if let Some(pace) = pace {
            let regrowth = care_plan::regrowth_at(catalogue, area, removal, pace)?;
            let graspable_mm = removal.graspable_mm.value;
            returning = Some(move |days: f64| Share {
                visible: regrowth.visible(days),
                graspable: regrowth.graspable(days, graspable_mm),
            });
        }
    }
    let areas = match pace {
        Some(pace) => areas::areas(catalogue, visit, whose.earlier_zones, pace, wall)?,
        None => Vec::new(),
    };
    Ok(Weeks {
        come_back: come_back(
            plan,
            wall,
            visit.finished_at,
            returning
                .as_ref()
                .map(|share| share as &dyn Fn(f64) -> Share),
        ),
        about,
        confidence: if areas.is_empty() {
            String::new()
        } else {
            wall.words.say("forecast.basis").to_owned()
        },
        areas,
    })
}
