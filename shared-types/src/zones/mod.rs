//! The zones of a brow: where hair is to grow back, where none grows, and what is kept tidy. Left and right are always
//! the client's own.

mod said;
mod wait;

use std::{fmt, str::FromStr};

use serde::{Deserialize, Serialize};

use crate::{
    page::form::Filled,
    visit::{UnknownTerm, terms},
};
pub use said::said;
pub use wait::{Wait, growing_since, wait};

terms! {
    /// Whose brow, as the client would say it.
    Side {
        Left = "left",
        Right = "right",
    }
}

terms! {
    /// A part of one brow, or the skin beside it.
    Zone {
        Front = "front",
        Body = "body",
        Arch = "arch",
        Tail = "tail",
        Above = "above",
        Below = "below",
    }
}

terms! {
    /// What an artist notes of a zone.
    Mark {
        /// The client is asked to leave it alone until the gap has closed.
        LetItGrow = "let_it_grow",
        /// Left out of the forecast.
        NothingGrows = "nothing_grows",
        KeepTidy = "keep_tidy",
    }
}

/// One zone of one brow.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Place {
    pub side: Side,
    pub zone: Zone,
}

impl Place {
    pub const COUNT: usize = 12;

    /// Every place: the left brow from front to below, then the right one.
    pub fn all() -> impl Iterator<Item = Place> {
        Side::ALL
            .iter()
            .flat_map(|&side| Zone::ALL.iter().map(move |&zone| Place { side, zone }))
    }

    /// The name of its field in a form: `zone_left_front`.
    pub fn field(self) -> String {
        format!("zone_{}_{}", self.side, self.zone)
    }

    fn number(self) -> usize {
        self.side as usize * Zone::ALL.len() + self.zone as usize
    }
}

/// The marks on both brows, at most one for each place. Written as twelve letters in the order of [`Place::all`]:
/// `g` let it grow, `n` nothing grows, `t` keep tidy, `-` no mark.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(into = "String", try_from = "String")]
pub struct Zones([Option<Mark>; Place::COUNT]);

impl Zones {
    pub fn mark(&self, place: Place) -> Option<Mark> {
        self.0[place.number()]
    }

    /// Marks a place, or takes its mark away.
    pub fn set(&mut self, place: Place, mark: Option<Mark>) {
        self.0[place.number()] = mark;
    }

    /// Whether nothing is marked.
    pub fn is_empty(&self) -> bool {
        self.0.iter().all(Option::is_none)
    }

    /// The marked places in the order of [`Place::all`].
    pub fn marked(&self) -> impl Iterator<Item = (Place, Mark)> + '_ {
        Place::all().filter_map(|place| Some((place, self.mark(place)?)))
    }

    /// The places with this mark.
    pub fn with(&self, mark: Mark) -> impl Iterator<Item = Place> + '_ {
        self.marked()
            .filter(move |(_, one)| *one == mark)
            .map(|(place, _)| place)
    }

    /// These marks, and where there is none, those of `kept`.
    pub fn over(self, kept: Zones) -> Zones {
        let mut all = kept;
        for (place, mark) in self.marked() {
            all.set(place, Some(mark));
        }
        all
    }

    /// The marks in a form. A mark that is not known is none; whether there is one tells [`Zones::is_mistaken`].
    pub fn in_form(form: &Filled) -> Self {
        let mut zones = Self::default();
        for place in Place::all() {
            zones.set(place, form.value(&place.field()).parse().ok());
        }
        zones
    }

    /// Whether a form says of some place what no mark is, or two things at once.
    pub fn is_mistaken(form: &Filled) -> bool {
        Place::all().any(|place| {
            let field = place.field();
            let known = |given: &str| given.is_empty() || given.parse::<Mark>().is_ok();
            form.all(&field).count() > 1 || !known(form.value(&field))
        })
    }

    /// Writes the marks into a form, in place of those that it holds.
    pub fn put_in(&self, form: &mut Filled) {
        for place in Place::all() {
            let field = place.field();
            form.forget(&field);
            if let Some(mark) = self.mark(place) {
                form.put(&field, mark.term());
            }
        }
    }
}

/// A text that is not twelve letters for the twelve places.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("`{0}` is not twelve of the letters g, n, t and -")]
pub struct NotZones(pub String);

impl From<Zones> for String {
    fn from(zones: Zones) -> String {
        let letter = |mark: &Option<Mark>| match mark {
            Some(Mark::LetItGrow) => 'g',
            Some(Mark::NothingGrows) => 'n',
            Some(Mark::KeepTidy) => 't',
            None => '-',
        };
        zones.0.iter().map(letter).collect()
    }
}

impl TryFrom<String> for Zones {
    type Error = NotZones;

    fn try_from(text: String) -> Result<Self, NotZones> {
        let mut zones = Self::default();
        if text.len() != Place::COUNT {
            return Err(NotZones(text));
        }
        for (place, letter) in zones.0.iter_mut().zip(text.bytes()) {
            *place = match letter {
                b'g' => Some(Mark::LetItGrow),
                b'n' => Some(Mark::NothingGrows),
                b't' => Some(Mark::KeepTidy),
                b'-' => None,
                _ => return Err(NotZones(text)),
            };
        }
        Ok(zones)
    }
}
