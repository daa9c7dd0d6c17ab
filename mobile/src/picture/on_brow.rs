//! Where the hairs of a brow stand and how they lie. Drawn by eye.

use super::strands::{Lie, Scatter, between, leftwards};
use crate::brow::{
    shape::{self, ALONG, EDGE},
    zones::zone_at,
};
use shared_types::zones::Zone;

/// Drawing units in a millimetre.
pub const UNITS: f64 = 20.0;

/// A hair of the shape itself: hairs stand evenly over its area. Those that were set (lamination) stand up further.
pub fn inside(scatter: &Scatter, set: bool) -> (Lie, Zone) {
    let [jitter, across, sway, _] = scatter.chances;
    let along = along_by_breadth((scatter.spread + jitter * 0.02).min(1.0));
    let across = (across * 2.0 - 1.0) * 0.97;
    lie(along, across, sway, if set { 1.1 } else { 0.0 })
}

/// A hair outside the shape, nearer its edge more often than further away: most below it, some above, a few between the
/// brows and past the tail.
pub fn outside(scatter: &Scatter) -> (Lie, Zone) {
    let [which, along, away, sway] = scatter.chances;
    let away = 10.0 + 82.0 * away * away;
    let aside = (away - 50.0) / 70.0;
    let (along, above) = match which {
        below if below < 0.60 => (80.0 + 880.0 * along, false),
        above if above < 0.88 => (140.0 + 780.0 * along, true),
        between_them if between_them < 0.95 => return lie(-20.0 - 95.0 * along, aside, sway, 0.0),
        _ => return lie(1000.0 + 50.0 * along, aside, sway, 0.0),
    };
    let breadth = f64::from(shape::line(along as i32).1).max(1.0);
    let across = 1.0 + away / breadth;
    lie(along, if above { across } else { -across }, sway, 0.0)
}

/// A hair at a place of the brow, and the zone in which that lies; `across` is in breadths from the middle line. At the front hairs stand up, along the
/// body they lean to the tail; below the middle line they rise and above it they fall, so that they meet; in the tail
/// they lie down.
fn lie(along: f64, across: f64, sway: f64, lifted: f64) -> (Lie, Zone) {
    const RISE: [(f64, f64); 6] = [
        (-150.0, 3.2),
        (0.0, 2.6),
        (180.0, 1.25),
        (450.0, 0.62),
        (720.0, 0.1),
        (1000.0, -0.75),
    ];
    let far = along / f64::from(ALONG);
    let side = across.clamp(-1.4, 1.4);
    let rise = between(&RISE, along) + (sway - 0.5) * 0.5 - side * (0.45 + 0.25 * far) + lifted;
    let lie = Lie {
        root: shape::place_between(along, across * f64::from(EDGE)),
        first: leftwards(rise + 0.25),
        tip: leftwards(rise - 0.45 - 0.2 * far),
    };
    (
        lie,
        zone_at(along as i32, (across * f64::from(EDGE)) as i32),
    )
}

/// The place along the brow below which `share` of its area lies.
fn along_by_breadth(share: f64) -> f64 {
    const STEPS: i32 = 40;
    let breadth = |step: i32| f64::from(shape::line(step * ALONG / STEPS).1);
    let whole: f64 = (0..STEPS).map(breadth).sum();
    let mut left = share * whole;
    for step in 0..STEPS {
        let here = breadth(step);
        if left <= here {
            return f64::from(ALONG) * (f64::from(step) + left / here) / f64::from(STEPS);
        }
        left -= here;
    }
    f64::from(ALONG)
}
