//! How much of a tint is left.

use super::curve::Regrowth;

impl Regrowth {
    /// The share of a tint's colour that is left `days` after the visit: hairs that were there and still are, times
    /// what the washes have left in them. 1 at the visit, never rising, 0 after one whole cycle.
    pub fn tint_kept(&self, days: f64) -> f64 {
        let days = days.max(0.0);
        let still_there = (1.0 - days / self.cycle.total()).max(0.0);
        still_there
            * self
                .parameters
                .wash_keep
                .powf(self.parameters.washes_per_day * days)
    }
}
