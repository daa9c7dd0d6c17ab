//! How the hair of each treated area returns, or keeps what was done to it: shares by week, milestones, and what the
//! picture is drawn from.

use chrono::{Days, NaiveDate};
use shared_types::{
    care_plan::{self, PlanError},
    catalogue::{Catalogue, treatment::Removal},
    dates,
    page::{
        client::{AreaWeeks, Milestone, Shows, WeekShare},
        picture::{Ground, Picture, Subject},
    },
    regrowth::curve::Regrowth,
    visit::{Area, Treatment, Visit},
    zones::{self, Mark, Place, Zones},
};

use crate::pages::wall::Wall;

/// Weeks that the strip shows.
const WEEKS: u8 = 12;
const DAYS_IN_WEEK: u16 = 7;

/// What was done in one area.
struct Done<'a> {
    area: Area,
    regrowth: Regrowth,
    removal: Option<&'a Removal>,
    tinted: bool,
    set: bool,
}

/// One for each area in which hair was taken out, coloured or set, in the order of [`Area::ALL`], for someone of this pace.
pub(super) fn areas(
    catalogue: &Catalogue,
    visit: &Visit,
    earlier_zones: &[(NaiveDate, Zones)],
    pace: f64,
    wall: &Wall<'_>,
) -> Result<Vec<AreaWeeks>, PlanError> {
    let visit_date = wall.day(visit.finished_at);
    let mut all = Vec::new();
    for area in Area::ALL {
        if let Some(done) = done_in(catalogue, *area, &visit.treatments, pace)? {
            all.push(AreaWeeks {
                area: *area,
                name: wall.words.say(&format!("area.{area}")).to_owned(),
                shows: done.shows(),
                weeks: (0..=WEEKS).map(|week| done.share(week)).collect(),
                picture: done.picture(catalogue, visit, ground(visit, visit_date, earlier_zones)),
                milestones: done.milestones(catalogue, wall, visit_date),
            });
        }
    }
    Ok(all)
}

fn done_in<'a>(
    catalogue: &'a Catalogue,
    area: Area,
    treatments: &[Treatment],
    pace: f64,
) -> Result<Option<Done<'a>>, PlanError> {
    let here = || {
        treatments.iter().filter_map(|treatment| {
            let entry = catalogue.treatments.get(treatment)?;
            (entry.area == area).then_some((*treatment, entry))
        })
    };
    let removal = here().find_map(|(_, entry)| entry.removal.as_ref());
    let tinted = here().any(|(treatment, _)| treatment.colours());
    let set = here().any(|(treatment, _)| treatment.sets());
    if removal.is_none() && !tinted && !set {
        return Ok(None);
    }
    let regrowth = match removal {
        Some(removal) => care_plan::regrowth_at(catalogue, area, removal, pace)?,
        None => care_plan::regrowth(catalogue, area, pace)?,
    };
    Ok(Some(Done {
        area,
        regrowth,
        removal,
        tinted,
        set,
    }))
}

impl Done<'_> {
    fn shows(&self) -> Shows {
        if self.removal.is_some() {
            Shows::Returning
        } else if self.set {
            Shows::Set
        } else {
            Shows::Colour
        }
    }

    fn share(&self, week: u8) -> WeekShare {
        let days = f64::from(week) * f64::from(DAYS_IN_WEEK);
        let returning = |share: f64| self.removal.map_or(0, |_| thousandths(share));
        let graspable_mm = self
            .removal
            .map_or(0.0, |removal| removal.graspable_mm.value);
        WeekShare {
            week,
            visible: returning(self.regrowth.visible(days)),
            graspable: returning(self.regrowth.graspable(days, graspable_mm)),
            kept: match self.shows() {
                Shows::Set => thousandths(self.regrowth.lift_kept(days)),
                Shows::Colour | Shows::Returning if self.tinted => {
                    thousandths(self.regrowth.tint_kept(days))
                }
                Shows::Colour | Shows::Returning => 0,
            },
        }
    }

    /// Brows and upper lashes are drawn; the same hairs for as long as the visit stands.
    fn picture(&self, catalogue: &Catalogue, visit: &Visit, ground: Vec<u16>) -> Option<Picture> {
        let rules = &catalogue.picture;
        let (subject, follicles, taken_out) = match self.area {
            Area::Brow => (
                Subject::Brows,
                &rules.brow_follicles,
                self.removal.map_or(0.0, |_| rules.brow_taken_out.value),
            ),
            Area::UpperLash => (Subject::UpperLashes, &rules.lid_follicles, 0.0),
            _ => return None,
        };
        let graspable_mm = self
            .removal
            .map_or(0.0, |removal| removal.graspable_mm.value);
        Some(Picture {
            subject,
            seed: seed(visit),
            follicles: follicles.value as u16,
            taken_out: thousandths(taken_out),
            figures: self.regrowth.parameters.in_order(),
            graspable: (graspable_mm * 100.0).round() as u16,
            tinted: self.tinted,
            set: self.set,
            last_day: u16::from(WEEKS) * DAYS_IN_WEEK,
            ground: if self.area == Area::Brow {
                ground
            } else {
                Vec::new()
            },
        })
    }

    /// First hairs, half of them long enough to hold, nine in ten of those pulled back: as far as the strip reaches.
    fn milestones(
        &self,
        catalogue: &Catalogue,
        wall: &Wall<'_>,
        visit_date: NaiveDate,
    ) -> Vec<Milestone> {
        let Some(removal) = self.removal else {
            return Vec::new();
        };
        let regrowth = &self.regrowth;
        let latest = &catalogue.rebook.graspable_latest;
        let days = [
            (
                "first_hairs",
                regrowth.first_day_visible(catalogue.clock.first_hairs.value),
            ),
            (
                "half_to_hold",
                regrowth.first_day_graspable(latest.value, removal.graspable_mm.value),
            ),
            (
                "nearly_all",
                Some(regrowth.emergence_days(0.9).ceil() as u32),
            ),
        ];
        let mut days: Vec<(&str, u32)> = days
            .into_iter()
            .filter_map(|(key, day)| Some((key, day?)))
            .collect();
        days.sort_by_key(|(_, day)| *day);
        days.into_iter()
            .filter_map(|(key, day)| {
                let on = visit_date.checked_add_days(Days::new(day.into()))?;
                Some(Milestone {
                    from: dates::date(wall.words, on, visit_date),
                    what: wall.words.say(&format!("milestone.{key}")).to_owned(),
                })
            })
            .collect()
    }
}

/// What grows in each place of the brows, by the artist's marks.
fn ground(visit: &Visit, visit_date: NaiveDate, earlier: &[(NaiveDate, Zones)]) -> Vec<u16> {
    if visit.zones.is_empty() {
        return Vec::new();
    }
    Place::all()
        .map(|place| match visit.zones.mark(place) {
            Some(Mark::NothingGrows) => Ground::Bare,
            Some(Mark::LetItGrow) => {
                let since = zones::growing_since(place, visit_date, earlier);
                Ground::Growing(u16::try_from((visit_date - since).num_days()).unwrap_or_default())
            }
            Some(Mark::KeepTidy) | None => Ground::Usual,
        })
        .map(Ground::counted)
        .collect()
}

/// A person's picture is told apart by the visit's id.
fn seed(visit: &Visit) -> u32 {
    visit.id.as_bytes().chunks(4).fold(0, |seed, four| {
        seed ^ four.iter().fold(0, |all, byte| all << 8 | u32::from(*byte))
    })
}

/// A share (0 to 1) in thousandths.
fn thousandths(share: f64) -> u16 {
    (share.clamp(0.0, 1.0) * 1000.0).round() as u16
}
