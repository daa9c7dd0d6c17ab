//! How much of a tint or a lift is left.

use super::{
    curve::{LONGEST_SEARCH_DAYS, Regrowth},
    parameters::Parameters,
};

impl Regrowth {
    /// The share of a tint's colour that is left `days` after the visit: hairs that were there and still are, times
    /// what the washes have left in them. 1 at the visit, never rising, 0 after one whole cycle.
    pub fn tint_kept(&self, days: f64) -> f64 {
        self.lift_kept(days) * self.parameters.colour_kept(days)
    }

    /// The last whole day on which at least `share` of the colour is left; 0 when that is only the day of the visit.
    pub fn last_day_tint_kept(&self, share: f64) -> u32 {
        (0..LONGEST_SEARCH_DAYS)
            .find(|day| self.tint_kept(f64::from(day + 1)) < share)
            .unwrap_or(LONGEST_SEARCH_DAYS)
    }

    /// The share of a lift's or lamination's hairs that are still there `days` after the visit: new hairs come up as
    /// they grow by themselves, and washing does not matter. 1 at the visit, never rising, 0 after one whole cycle.
    pub fn lift_kept(&self, days: f64) -> f64 {
        (1.0 - days.max(0.0) / self.cycle.total()).max(0.0)
    }
}

impl Parameters {
    /// The share of its colour that a hair has kept through the washes of so many days.
    pub fn colour_kept(&self, days: f64) -> f64 {
        self.wash_keep.powf(self.washes_per_day * days.max(0.0))
    }
}
