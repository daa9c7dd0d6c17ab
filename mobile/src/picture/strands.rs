//! The hairs of a picture: every follicle with its place, and what is to be seen of it on a day.

use shared_types::{
    page::picture::{Ground, Picture, Subject},
    regrowth::{
        chance,
        curve::Regrowth,
        follicles::{Follicle, Hair, Look},
    },
    zones::Zone,
};

use super::{
    lid, on_brow,
    path::{Leaf, Path},
};

/// Keeps the places of follicles apart from their cycles, which are drawn from the same seed.
const PLACES: u64 = 0x9E6D_62D0_6F6A_9A9B;
/// Numbers drawn for one follicle's place: [`Scatter`]'s and the stretch.
const DRAWS: u64 = 5;

/// Where a hair stands in the drawing and which way it lies; directions have length 1.
pub struct Lie {
    pub root: (f64, f64),
    pub first: (f64, f64),
    pub tip: (f64, f64),
}

/// What a place is chosen from: a share that runs evenly over the follicles of one side, and four chances.
pub struct Scatter {
    pub spread: f64,
    pub chances: [f64; 4],
}

/// One follicle in the drawing.
pub struct Strand {
    follicle: Follicle,
    /// Its hair was taken out, so many days before the visit; `None` where it was left.
    taken_out: Option<u16>,
    lie: Lie,
    /// How the next hair of this follicle lies: nobody has set that one.
    next: Lie,
    /// Drawing units for a millimetre of this hair: no two are alike.
    scale: f64,
}

/// The paths of one day, one for each look.
#[derive(Debug, Default, PartialEq)]
pub struct Paths {
    /// Hairs that were left at the visit and are still there.
    pub left: String,
    /// Hairs outside the shape that were there at the visit, hidden or broken, and show again.
    pub back: String,
    /// Hairs that started after the visit.
    pub new: String,
    /// The share of the colour put on at the visit that those left still carry.
    pub colour: f64,
}

/// Every follicle of both sides: always the same ones for the same picture.
pub fn strands(picture: &Picture, regrowth: &Regrowth) -> Vec<Strand> {
    let seed = u64::from(picture.seed);
    let one_side = u64::from(picture.follicles);
    let inside = one_side * u64::from(1000 - picture.taken_out.min(1000)) / 1000;
    (0..2 * one_side)
        .filter_map(|number| {
            let (side, place) = (number / one_side, number % one_side);
            let chance = |draw| chance::share(seed ^ PLACES, number * DRAWS + draw);
            let outside = place >= inside;
            let scatter = Scatter {
                spread: place as f64 / inside.max(1) as f64,
                chances: [chance(0), chance(1), chance(2), chance(3)],
            };
            let lie = |set| {
                let (lie, zone) = match picture.subject {
                    Subject::Brows if outside => on_brow::outside(&scatter),
                    Subject::Brows => on_brow::inside(&scatter, set),
                    Subject::UpperLashes => (lid::lash(&scatter, set), Zone::Body),
                };
                (if side == 0 { lie } else { lie.mirrored() }, zone)
            };
            let ((lie, zone), (next, _)) = (lie(picture.set), lie(false));
            let taken_out = match picture.ground_of(side == 0, zone) {
                Ground::Bare => return None,
                Ground::Growing(days) => Some(days),
                Ground::Usual => outside.then_some(0),
            };
            let units = match picture.subject {
                Subject::Brows => on_brow::UNITS,
                Subject::UpperLashes => lid::UNITS,
            };
            Some(Strand {
                follicle: Follicle::draw(regrowth, seed, number),
                taken_out,
                lie,
                next,
                scale: units * (0.82 + 0.36 * chance(4)),
            })
        })
        .collect()
}

impl Strand {
    fn hair(&self, regrowth: &Regrowth, day: f64) -> Hair {
        match self.taken_out {
            Some(before) => self
                .follicle
                .after_removal(regrowth, day + f64::from(before)),
            None => self.follicle.left_standing(regrowth, day),
        }
    }
}

/// Draws one day, counted from the visit.
pub fn draw(strands: &[Strand], regrowth: &Regrowth, day: f64) -> Paths {
    let (mut left, mut back, mut new) = (Path::default(), Path::default(), Path::default());
    for strand in strands {
        let hair = strand.hair(regrowth, day);
        let (path, lie, breadth) = match (hair.look, strand.taken_out.is_some()) {
            (Look::Old, false) => (&mut left, &strand.lie, 7.0),
            (Look::Old, true) => (&mut back, &strand.next, 7.0),
            // A new hair begins with its finest part.
            (Look::New, _) => (&mut new, &strand.next, 5.5),
            (Look::Hidden | Look::None, _) => continue,
        };
        Leaf {
            root: lie.root,
            first: lie.first,
            tip: lie.tip,
            length: hair.length_mm * strand.scale,
            breadth,
        }
        .write(path);
    }
    Paths {
        left: left.text(),
        back: back.text(),
        new: new.text(),
        colour: regrowth.parameters.colour_kept(day),
    }
}

impl Paths {
    /// The class of the hairs that were left: `c9` where they keep nine tenths of the colour put on, down to `c5`.
    pub fn left_class(&self, tinted: bool) -> &'static str {
        const BY_TENTHS: [&str; 6] = [
            "left c5", "left c6", "left c7", "left c8", "left c9", "left c10",
        ];
        if !tinted {
            return "left";
        }
        let tenths = (self.colour * 10.0 + 0.5) as usize;
        BY_TENTHS[tenths.clamp(5, 10) - 5]
    }
}

impl Lie {
    /// On the other side of the face.
    fn mirrored(self) -> Self {
        let across = |(x, y): (f64, f64)| (-x, y);
        Self {
            root: (super::WIDTH - self.root.0, self.root.1),
            first: across(self.first),
            tip: across(self.tip),
        }
    }
}

/// The direction of length 1 with this rise over one step to the left.
pub fn leftwards(rise: f64) -> (f64, f64) {
    let length = (1.0 + rise * rise).sqrt();
    (-1.0 / length, -rise / length)
}

/// The value at `at` on the straight lines between points, which are sorted; beyond them the last line goes on.
pub fn between(points: &[(f64, f64)], at: f64) -> f64 {
    let next = points
        .iter()
        .position(|point| point.0 > at)
        .unwrap_or(points.len())
        .clamp(1, points.len().max(2) - 1);
    match (points.get(next - 1), points.get(next)) {
        (Some(from), Some(to)) => from.1 + (to.1 - from.1) * (at - from.0) / (to.0 - from.0),
        _ => 0.0,
    }
}
