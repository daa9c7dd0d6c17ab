//! Single follicles drawn from a seed, by the rules whose sums are the closed forms of [`super::curve`].
//!
//! What a visit finds is drawn once for each follicle: where in its cycle it is, whether its hair breaks, whether it is
//! lost, how long it waits. All else follows from the day. Phases take their mean stays. After a removal a follicle is
//! followed to the hair that comes back and not to that hair's own end, as the closed form is.

use super::{chance, curve::Regrowth};

/// One follicle as a visit finds it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Follicle {
    /// Days since its hair began to grow: 0 to a whole cycle.
    pub age: f64,
    /// If its hair is removed, it breaks and does not come out with the root.
    pub breaks: bool,
    /// If its hair comes out with the root, none follows.
    pub lost: bool,
    /// If its hair comes out with the root, days until the next one starts.
    pub wait: f64,
}

/// What is to be seen of a follicle on one day.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hair {
    /// Above the skin, in mm; 0 for nothing to be seen.
    pub length_mm: f64,
    pub look: Look,
    /// The share of the colour put on at the visit that it still carries.
    pub tint: f64,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Look {
    /// A hair to be seen that was in its follicle at the visit already, if only below the skin.
    Old,
    /// A hair to be seen that started after the visit.
    New,
    /// A hair or a stump below the skin.
    Hidden,
    /// An empty follicle.
    None,
}

/// Numbers drawn for one follicle.
const DRAWS: u64 = 4;

impl Follicle {
    /// The follicle at `place` among those of `seed`: always the same one.
    pub fn draw(regrowth: &Regrowth, seed: u64, place: u64) -> Self {
        let share = |draw| chance::share(seed, place.wrapping_mul(DRAWS).wrapping_add(draw));
        let parameters = &regrowth.parameters;
        Self {
            age: share(0) * regrowth.cycle.total(),
            breaks: share(1) < parameters.broken_fraction,
            lost: share(2) < parameters.lost_fraction,
            wait: regrowth.latency.quantile(share(3)),
        }
    }

    /// `days` after a visit at which every hair to be seen was removed.
    pub fn after_removal(&self, regrowth: &Regrowth, days: f64) -> Hair {
        let cycle = &regrowth.cycle;
        let transit = regrowth.transit;
        let shed = cycle.anagen + cycle.resting();
        let next_start = cycle.total() - self.age;
        if self.age < transit {
            // Below the skin at the visit, and not touched.
            self.risen(regrowth, days, transit - self.age, Look::Old)
        } else if self.age >= shed {
            self.started(regrowth, days, next_start)
        } else if self.breaks && self.age < cycle.anagen {
            let parameters = &regrowth.parameters;
            let back = parameters.break_depth_mm / parameters.speed_mm_per_day;
            self.risen(regrowth, days, back, Look::Old)
        } else if self.breaks {
            // A stump that does not grow stays until it is shed.
            if days < shed - self.age {
                Hair::below(Look::Hidden)
            } else {
                self.started(regrowth, days, next_start)
            }
        } else if self.lost {
            Hair::below(Look::None)
        } else {
            self.started(regrowth, days, self.wait)
        }
    }

    /// `days` after a visit that left every hair where it was. The colour follows [`Regrowth::tint_kept`]: whatever was
    /// in its follicle at the visit carries it until the end of its cycle.
    pub fn left_standing(&self, regrowth: &Regrowth, days: f64) -> Hair {
        let cycle = &regrowth.cycle;
        let total = self.age + days.max(0.0);
        let first = total < cycle.total();
        let age = total % cycle.total();
        let grown = age.min(cycle.anagen) - regrowth.transit;
        let (look, tint) = if first {
            (Look::Old, regrowth.parameters.colour_kept(days))
        } else {
            (Look::New, 0.0)
        };
        if age >= cycle.anagen + cycle.resting() {
            Hair {
                tint,
                ..Hair::below(Look::None)
            }
        } else if grown < 0.0 {
            Hair {
                tint,
                ..Hair::below(Look::Hidden)
            }
        } else {
            Hair {
                length_mm: grown * regrowth.parameters.speed_mm_per_day,
                look,
                tint,
            }
        }
    }

    /// A new hair that starts on the day `start`.
    fn started(&self, regrowth: &Regrowth, days: f64, start: f64) -> Hair {
        if days < start {
            Hair::below(Look::None)
        } else {
            self.risen(regrowth, days, start + regrowth.transit, Look::New)
        }
    }

    /// A growing hair that comes to the surface on the day `surface`, up to the length at which hairs end.
    fn risen(&self, regrowth: &Regrowth, days: f64, surface: f64, look: Look) -> Hair {
        if days < surface || days <= 0.0 {
            return Hair::below(Look::Hidden);
        }
        let parameters = &regrowth.parameters;
        let grown = (days - surface) * parameters.speed_mm_per_day;
        Hair {
            length_mm: grown.min(parameters.full_length_mm()),
            look,
            tint: 0.0,
        }
    }
}

impl Hair {
    const fn below(look: Look) -> Self {
        Self {
            length_mm: 0.0,
            look,
            tint: 0.0,
        }
    }

    /// Whether there is anything to be seen.
    pub const fn shows(&self) -> bool {
        matches!(self.look, Look::Old | Look::New)
    }
}
