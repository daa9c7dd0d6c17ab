//! What the drawn picture of a brow or a lid is made from: the server writes it down once, the phone and the server
//! draw the same hairs from it for any day.

use std::{fmt, str::FromStr};

use serde::{Deserialize, Serialize};

#[cfg(doc)]
use crate::zones::Place;
use crate::{
    regrowth::parameters::Parameters,
    visit::{UnknownTerm, terms},
    zones::Zone,
};

/// The hairs of both brows, or both upper lids, of one person after one visit.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Picture {
    pub subject: Subject,
    /// The same for as long as the visit stands, so that the hairs are always the same person's.
    pub seed: u32,
    /// Follicles drawn on one side.
    pub follicles: u16,
    /// Of these, in thousandths, those outside the shape, whose hairs were taken out at the visit.
    pub taken_out: u16,
    /// The model's parameters at the person's own pace, in the order of [`Parameters::in_order`]: a bare list, because the
    /// names are a good part of what the phone would have to download to read them.
    pub figures: Vec<f64>,
    /// Visible length that can be held, in hundredths of a millimetre; 0 where no hair was taken out.
    pub graspable: u16,
    /// Colour was put on.
    pub tinted: bool,
    /// Hairs were set in a new direction (lamination, lift).
    pub set: bool,
    /// Days from the visit to the end of the picture.
    pub last_day: u16,
    /// For each place of a brow in the order of [`Place::all`], as [`Ground`] counts it; empty when none is marked.
    #[serde(default)]
    pub ground: Vec<u16>,
}

/// What grows in a place of a brow.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ground {
    /// As everywhere: 0.
    Usual,
    /// Nothing: 1.
    Bare,
    /// Hairs that are let grow again, pulled so many days before the visit: 2 and those days.
    Growing(u16),
}

impl Ground {
    pub const fn counted(self) -> u16 {
        match self {
            Ground::Usual => 0,
            Ground::Bare => 1,
            Ground::Growing(days) => days.saturating_add(2),
        }
    }

    pub const fn from_count(count: u16) -> Self {
        match count {
            0 => Ground::Usual,
            1 => Ground::Bare,
            more => Ground::Growing(more - 2),
        }
    }
}

terms! {
    /// What is drawn.
    Subject {
        Brows = "brows",
        UpperLashes = "upper_lashes",
    }
}

impl Picture {
    /// What grows in a zone of the brow on the left of the picture, or of the other. The picture shows a face as its owner
    /// sees it in a mirror: the left brow is on the left.
    pub fn ground_of(&self, on_the_left: bool, zone: Zone) -> Ground {
        let first = if on_the_left { 0 } else { Zone::ALL.len() };
        let count = self.ground.get(first + zone as usize);
        Ground::from_count(count.copied().unwrap_or_default())
    }

    /// The model's parameters; a figure that is missing is 0.
    pub fn parameters(&self) -> Parameters {
        Parameters::from_order(|place| self.figures.get(place).copied().unwrap_or_default())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::zones::{Place, Side};

    #[test]
    fn ground_is_found_by_its_place() {
        for (at, place) in Place::all().enumerate() {
            let mut ground = vec![0; Place::COUNT];
            ground[at] = Ground::Growing(30).counted();
            let picture = Picture {
                subject: Subject::Brows,
                seed: 1,
                follicles: 1,
                taken_out: 0,
                figures: Vec::new(),
                graspable: 0,
                tinted: false,
                set: false,
                last_day: 84,
                ground,
            };
            for other in Place::all() {
                let expected = if other == place {
                    Ground::Growing(30)
                } else {
                    Ground::Usual
                };
                let found = picture.ground_of(other.side == Side::Left, other.zone);
                assert_eq!(found, expected, "{place:?} {other:?}");
            }
        }
    }
}
