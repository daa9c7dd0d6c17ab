//! The normal distribution, as far as the clock needs it.

use std::f64::consts::PI;

/// Beyond so many deviations there is less than a double can tell from nothing.
const FAR: f64 = 9.0;

/// P(from <= Z <= until) for mean 0 and deviation 1, by Simpson's rule; either end may be infinite. Far tails keep
/// their relative accuracy, which a difference of two distribution functions would lose.
pub fn mass(from: f64, until: f64) -> f64 {
    let low = from.max(until.min(0.0) - FAR);
    let high = until.min(from.max(0.0) + FAR);
    if low >= high {
        return 0.0;
    }
    const PANELS: u32 = 100;
    let step = (high - low) / f64::from(2 * PANELS);
    let at = |index: u32| density(low + f64::from(index) * step);
    let inner: f64 = (1..2 * PANELS)
        .map(|index| if index % 2 == 1 { 4.0 } else { 2.0 } * at(index))
        .sum();
    step / 3.0 * (at(0) + inner + at(2 * PANELS))
}

/// The deviation below which `share` (strictly between 0 and 1) lies, within [`FAR`].
pub fn quantile(share: f64) -> f64 {
    let (mut low, mut high) = (-FAR, FAR);
    // 60 halvings of a bracket bring it below what the integral can tell apart.
    for _ in 0..60 {
        let middle = (low + high) / 2.0;
        if mass(f64::NEG_INFINITY, middle) < share {
            low = middle;
        } else {
            high = middle;
        }
    }
    high
}

/// The density of mean 0 and deviation 1.
pub fn density(z: f64) -> f64 {
    (-z * z / 2.0).exp() / (2.0 * PI).sqrt()
}
