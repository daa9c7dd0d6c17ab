//! The weeks between in words and figures.

use chrono::{DateTime, NaiveDate, Utc};
use shared_types::{
    care_plan::{self, CarePlan, PlanError},
    catalogue::Catalogue,
    dates,
    page::client::{ComeBack, WeekShare, Weeks},
    visit::Visit,
};

use crate::pages::wall::Wall;

/// Weeks that the strip shows.
const WEEKS: u8 = 12;

/// The strip of weeks for the area where hair was removed; without removal only the time to come back.
pub(super) fn weeks(
    catalogue: &Catalogue,
    visit: &Visit,
    plan: &CarePlan,
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
    let Some((area, removal)) = removal else {
        return Ok(Some(Weeks {
            area: first.area,
            weeks: Vec::new(),
            come_back: come_back(plan, wall, visit.finished_at, None),
            confidence: String::new(),
        }));
    };
    let regrowth = care_plan::regrowth_after(catalogue, area, removal)?;
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
        confidence: wall.words.say("forecast.basis").to_owned(),
    }))
}

/// Shares (0 to 1) of the hairs that were there before.
struct Share {
    visible: f64,
    graspable: f64,
}

/// A share (0 to 1) in thousandths.
fn thousandths(share: f64) -> u16 {
    (share.clamp(0.0, 1.0) * 1000.0).round() as u16
}

/// When to come back, and why. Where hair was removed the reason is what will be back by then; else it is that of the
/// treatment that is ready last.
fn come_back(
    plan: &CarePlan,
    wall: &Wall<'_>,
    finished: DateTime<Utc>,
    share: Option<&dyn Fn(f64) -> Share>,
) -> Option<ComeBack> {
    let next = &plan.next_visit;
    let span = next.suggested?;
    let visit_date = wall.day(finished);
    let day = |date: NaiveDate| u16::try_from((date - visit_date).num_days()).unwrap_or(u16::MAX);
    let why = match share {
        Some(share) => {
            let at = share(f64::from(day(span.from)));
            let of_ten = |share: f64| (share * 10.0).round().max(1.0).to_string();
            wall.words.fill(
                "window.back_by_then",
                &[
                    ("visible", &of_ten(at.visible)),
                    ("graspable", &of_ten(at.graspable)),
                ],
            )
        }
        None => {
            let slowest = next.windows.iter().max_by_key(|window| window.best)?;
            wall.words
                .say(&format!("window.{}", slowest.reason))
                .to_owned()
        }
    };
    Some(ComeBack {
        from: dates::date(wall.words, span.from, visit_date),
        until: dates::date(wall.words, span.until, visit_date),
        from_day: day(span.from),
        until_day: day(span.until),
        why,
    })
}
