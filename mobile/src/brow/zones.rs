//! Where the zones of a brow lie in the drawing. Whole numbers throughout, as in [`super::shape`].

use std::fmt::Write;

use shared_types::zones::Zone;

use super::shape::{ALONG, EDGE, line, place};

/// The zones on the brow itself, each from the end of the one before to this place along the brow.
const ENDS: [(Zone, i32); 4] = [
    (Zone::Front, 170),
    (Zone::Body, 480),
    (Zone::Arch, 760),
    (Zone::Tail, ALONG),
];
/// From the brow's edge to the band of skin above or below it, and the breadth of that band.
const GAP: i32 = 16;
const BAND: i32 = 112;
/// From the middle line to the band at least: the tail runs out, and is still to be hit by a finger.
const REACH: i32 = 56;
/// Places along the brow from one point of an outline to the next.
const STEP: i32 = 80;
const MOST_STEPS: i32 = 6;
/// How far from the front, and for skin from either end, an outline is rounded off.
const SOFT: i32 = 110;

/// How fine a drawing is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Grain {
    /// Units of the shape in one unit of the drawing.
    pub unit: i32,
    /// Places along the brow from one column of hairs to the next.
    pub apart: i32,
    /// Of the hairs in these columns every so many is drawn.
    pub every: i32,
}

impl Grain {
    /// For a drawing that fills a tablet.
    pub const FINE: Grain = Grain {
        unit: 1,
        apart: 22,
        every: 1,
    };
    /// For a small one that a phone loads: few strokes and short numbers.
    pub const COARSE: Grain = Grain {
        unit: 4,
        apart: 36,
        every: 2,
    };
}

/// The zone in which a place of the brow lies; places beyond the edges are the skin above and below.
pub fn zone_at(along: i32, across: i32) -> Zone {
    if across > EDGE {
        return Zone::Above;
    }
    if across < -EDGE {
        return Zone::Below;
    }
    ENDS.iter()
        .find(|(_, end)| along < *end)
        .map_or(Zone::Tail, |(zone, _)| *zone)
}

/// The outline of a zone of the brow on the left of the picture, as a closed path with a soft front.
pub fn outline(zone: Zone, grain: Grain) -> String {
    let soft = |along: i32, ends: i32| 100 - ends * (SOFT - nearest_end(along)).max(0) / SOFT;
    path(zone, grain.unit, |along| {
        let (middle, breadth) = line(along);
        match skin(zone, along) {
            Some((start, end)) => {
                let half = (end - start).abs() * soft(along, 96) / 200;
                let centre = (start + end) / 2;
                (centre - half, centre + half)
            }
            None => {
                let front = (SOFT - along).max(0);
                let breadth = breadth * (100 - 40 * front / SOFT) / 100;
                (middle - breadth, middle + breadth)
            }
        }
    })
}

/// The outline of what a finger may hit for it: as broad as a finger also where the tail runs out.
pub fn target(zone: Zone) -> String {
    path(zone, 1, |along| {
        let (middle, breadth) = line(along);
        skin(zone, along).unwrap_or_else(|| {
            let breadth = breadth.max(REACH);
            (middle - breadth, middle + breadth)
        })
    })
}

/// The upper and the lower y of the band of skin that a zone is; `None` for a zone on the brow itself.
fn skin(zone: Zone, along: i32) -> Option<(i32, i32)> {
    let (middle, breadth) = line(along);
    let start = (breadth + GAP).max(REACH);
    match zone {
        Zone::Above => Some((middle - start - BAND, middle - start)),
        Zone::Below => Some((middle + start, middle + start + BAND)),
        _ => None,
    }
}

fn nearest_end(along: i32) -> i32 {
    along.min(ALONG - along)
}

/// The closed path around a zone between its upper and lower y at each place along the brow, rounded from one point to
/// the next.
fn path(zone: Zone, unit: i32, edges: impl Fn(i32) -> (i32, i32)) -> String {
    let (from, until) = span(zone);
    let steps = ((until - from) / STEP).clamp(2, MOST_STEPS);
    let points = |lower: bool| {
        let mut points: Vec<(i32, i32)> = (0..=steps)
            .map(|step| {
                let along = from + (until - from) * step / steps;
                let (above, below) = edges(along);
                let y = if lower { below } else { above };
                (place(along, 0).0 / unit, y / unit)
            })
            .collect();
        if lower {
            points.reverse();
        }
        points
    };
    let mut path = String::new();
    for (letter, points) in [('M', points(false)), ('L', points(true))] {
        for (at, (x, y)) in points.iter().enumerate() {
            let _ = match points.get(at + 1) {
                _ if at == 0 => write!(path, "{letter}{x} {y}"),
                Some((ahead_x, ahead_y)) if at + 2 < points.len() => {
                    write!(path, "Q{x} {y} {} {}", (x + ahead_x) / 2, (y + ahead_y) / 2)
                }
                Some((end_x, end_y)) => write!(path, "Q{x} {y} {end_x} {end_y}"),
                None => Ok(()),
            };
        }
    }
    path.push('Z');
    path
}

/// From where to where along the brow a zone lies.
pub(super) fn span(zone: Zone) -> (i32, i32) {
    let mut from = 0;
    for (one, end) in ENDS {
        if one == zone {
            return (from, end);
        }
        from = end;
    }
    (0, ALONG)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The points on a path of `M`, `L`, `Q` and `Z`; the curves between them are flat enough to be taken as straight.
    fn corners(path: &str) -> Vec<(i32, i32)> {
        let corner = |text: &str| {
            let numbers: Vec<i32> = text.split(' ').map(|one| one.parse().unwrap()).collect();
            (numbers[numbers.len() - 2], numbers[numbers.len() - 1])
        };
        path.trim_end_matches('Z')
            .split(['M', 'L', 'Q'])
            .skip(1)
            .map(corner)
            .collect()
    }

    /// Whether a ray from the point crosses the outline an odd number of times (the even-odd rule of SVG 2, section
    /// 13.4.2).
    fn holds(path: &str, (x, y): (i32, i32)) -> bool {
        let corners = corners(path);
        let next = corners.iter().cycle().skip(1);
        let crossed = corners.iter().zip(next).filter(|((x1, y1), (x2, y2))| {
            (*y1 > y) != (*y2 > y)
                && f64::from(x)
                    < f64::from(x2 - x1) * f64::from(y - y1) / f64::from(y2 - y1) + f64::from(*x1)
        });
        crossed.count() % 2 == 1
    }

    /// What is asked of a place and what is drawn there agree, away from the rounded front.
    #[test]
    fn every_place_of_the_brow_lies_in_the_outline_of_its_zone() {
        for along in (SOFT + 5..ALONG).step_by(30) {
            for across in [-800, -300, 200, 700] {
                let zone = zone_at(along, across);
                let at = place(along, across);
                // Near the end of the tail a place is smaller than a step of the outline.
                if line(along).1 < 16 {
                    continue;
                }
                for one in [Zone::Front, Zone::Body, Zone::Arch, Zone::Tail] {
                    let near_border = ENDS.iter().any(|(_, end)| (end - along).abs() < 4);
                    assert!(
                        near_border || holds(&outline(one, Grain::FINE), at) == (one == zone),
                        "{along}, {across}: {zone} and {one}"
                    );
                }
            }
        }
    }

    #[test]
    fn skin_lies_beyond_the_edges() {
        for along in (60..960).step_by(90) {
            let (middle, breadth) = line(along);
            let out = (breadth + GAP).max(REACH) + BAND / 2;
            let across = out * EDGE / breadth;
            assert_eq!(zone_at(along, across), Zone::Above);
            assert_eq!(zone_at(along, -across), Zone::Below);
            let x = place(along, 0).0;
            assert!(
                holds(&outline(Zone::Above, Grain::FINE), (x, middle - out)),
                "{along}"
            );
            assert!(
                holds(&outline(Zone::Below, Grain::FINE), (x, middle + out)),
                "{along}"
            );
        }
    }

    /// WCAG 2.2 SC 2.5.8 asks for 24 CSS pixels. On the smallest phone, 320 pixels wide, the artist's drawing of one
    /// brow is some 280 pixels wide and shows 1240 units.
    #[test]
    fn a_finger_hits_every_zone_on_the_smallest_phone() {
        for zone in Zone::ALL {
            let corners = corners(&target(*zone));
            let span =
                |values: Vec<i32>| values.iter().max().unwrap() - values.iter().min().unwrap();
            let wide = span(corners.iter().map(|corner| corner.0).collect());
            let high = span(corners.iter().map(|corner| corner.1).collect());
            for (name, units) in [
                ("wide", wide),
                ("high", high),
                ("band", BAND),
                ("tail", 2 * REACH),
            ] {
                let pixels = units * 280 / 1240;
                assert!(pixels >= 24, "{zone}: {pixels} {name}");
            }
        }
    }
}
