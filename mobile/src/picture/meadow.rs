//! The strip of weeks as a drawing: time runs along the brow, and at each place stand the hairs that are back by
//! then. A short thin stroke has shown again; a long strong one is long enough to be held.
//!
//! Whole-number arithmetic only: the server and the phone must write the same path to the last digit.

use std::fmt::Write;

use shared_types::page::client::{Figure, Shows, WeekShare};

/// The drawing's size in user units.
pub const WIDTH: u32 = 720;
pub const HEIGHT: u32 = 132;
/// The skin line on which the hairs stand.
pub const SKIN: u32 = 108;
/// How far the last hairs lean beyond the width.
pub const LEAN: u32 = 36;
/// Strokes along the whole width.
const HAIRS: u32 = 96;

/// The paths of the two kinds of hair and of the follicles with nothing to see yet.
#[derive(Debug, Default, PartialEq, Eq)]
pub struct Meadow {
    pub short: String,
    pub long: String,
    pub empty: String,
}

/// Where `day` lies along the drawing, which ends with the last week.
pub fn x_of_day(weeks: &[WeekShare], day: u32) -> u32 {
    let last = weeks
        .last()
        .map_or(1, |week| u32::from(week.week) * 7)
        .max(1);
    day.min(last) * WIDTH / last
}

/// Draws the weeks, which are sorted by week; before the first one nothing shows. Where hair was only coloured or set,
/// a strong stroke has kept it and a thin one has grown out of it.
pub fn draw(figure: &Figure) -> Meadow {
    let weeks = figure.weeks.as_slice();
    let mut meadow = Meadow::default();
    let Some(last) = weeks.last().map(|week| u32::from(week.week)) else {
        return meadow;
    };
    for hair in 0..HAIRS {
        let x = (hair * WIDTH + WIDTH / 2) / HAIRS;
        let (visible, graspable) = match figure.shows {
            Shows::Returning => shares(weeks, x * last),
            Shows::Colour | Shows::Set => (1001, kept(weeks, x * last)),
        };
        let chance = scattered(hair, 144);
        let sway = scattered(hair, 89);
        if chance < graspable {
            stroke(&mut meadow.long, x, 58 + sway * 34 / 1000, sway);
        } else if chance < visible {
            stroke(&mut meadow.short, x, 12 + sway * 24 / 1000, sway);
        } else {
            // Writing to a String cannot fail.
            let _ = write!(meadow.empty, "M{x} {SKIN}h1");
        }
    }
    meadow
}

/// One hair: rooted at `x`, leaning to the tail of the brow, curving as it rises.
fn stroke(path: &mut String, x: u32, length: u32, sway: u32) {
    let lean = length / 4 + sway / 100;
    let _ = write!(
        path,
        "M{x} {SKIN}q{} -{} {lean} -{length}",
        lean / 5,
        length * 2 / 3
    );
}

/// The kept share, in thousandths, at a point between the weeks; everything is kept at the visit.
fn kept(weeks: &[WeekShare], at: u32) -> u32 {
    let mut before = (0, 1000);
    for week in weeks {
        let (until, share) = (u32::from(week.week) * WIDTH, u32::from(week.kept));
        if at <= until && until > before.0 {
            return (before.1 * (until - at) + share * (at - before.0)) / (until - before.0);
        }
        before = (until, share);
    }
    before.1
}

/// Visible and graspable share, in thousandths, at a point between the weeks, by straight line from nothing at the
/// visit. `at` is in weeks times [`WIDTH`].
fn shares(weeks: &[WeekShare], at: u32) -> (u32, u32) {
    let between = |from: u16, to: u16, along: u32, whole: u32| {
        (u32::from(from) * (whole - along) + u32::from(to) * along) / whole
    };
    let mut before = WeekShare {
        week: 0,
        visible: 0,
        graspable: 0,
        kept: 0,
    };
    for week in weeks {
        let (from, to) = (u32::from(before.week) * WIDTH, u32::from(week.week) * WIDTH);
        if at <= to && to > from {
            let (along, whole) = (at.saturating_sub(from), to - from);
            return (
                between(before.visible, week.visible, along, whole),
                between(before.graspable, week.graspable, along, whole),
            );
        }
        before = *week;
    }
    (before.visible.into(), before.graspable.into())
}

/// An even scatter over 0 to 1000 without randomness: multiples of the golden ratio, taken as a Fibonacci fraction
/// (`step` over 233).
fn scattered(n: u32, step: u32) -> u32 {
    n * step % 233 * 1000 / 233
}

#[cfg(test)]
mod tests {
    use shared_types::visit::Area;

    use super::*;

    fn week(week: u8, visible: u16, graspable: u16, kept: u16) -> WeekShare {
        WeekShare {
            week,
            visible,
            graspable,
            kept,
        }
    }

    fn area(shows: Shows, weeks: Vec<WeekShare>) -> Figure {
        Figure {
            area: Area::Brow,
            name: String::new(),
            shows,
            weeks,
            picture: None,
        }
    }

    fn strokes(path: &str) -> usize {
        path.matches('M').count()
    }

    fn share(path: &str) -> f32 {
        strokes(path) as f32 / HAIRS as f32
    }

    #[test]
    fn every_follicle_is_drawn_once() {
        let weeks = vec![week(6, 500, 100, 0), week(12, 1000, 900, 0)];
        let meadow = draw(&area(Shows::Returning, weeks));
        let all = strokes(&meadow.short) + strokes(&meadow.long) + strokes(&meadow.empty);
        assert_eq!(all, HAIRS as usize);
    }

    #[test]
    fn the_share_drawn_is_the_share_given() {
        // A level stretch from week 1 to 12: 40 of 100 visible, 15 of 100 graspable.
        let weeks = vec![week(1, 400, 150, 0), week(12, 400, 150, 0)];
        let meadow = draw(&area(Shows::Returning, weeks));
        let (long, short) = (share(&meadow.long), share(&meadow.short));
        assert!((long - 0.15).abs() < 0.03, "{long}");
        assert!((short - 0.25).abs() < 0.04, "{short}");
    }

    #[test]
    fn what_is_kept_is_drawn_strong_and_the_rest_thin() {
        let weeks = vec![week(0, 0, 0, 700), week(12, 0, 0, 700)];
        let meadow = draw(&area(Shows::Set, weeks));
        let long = share(&meadow.long);
        assert!((long - 0.7).abs() < 0.04, "{long}");
        assert_eq!(
            strokes(&meadow.long) + strokes(&meadow.short),
            HAIRS as usize
        );
        assert_eq!(kept(&[week(12, 0, 0, 400)], 6 * WIDTH), 700);
    }

    #[test]
    fn nothing_given_draws_nothing() {
        assert_eq!(draw(&area(Shows::Returning, Vec::new())), Meadow::default());
        assert_eq!(x_of_day(&[], 40), WIDTH);
    }
}
