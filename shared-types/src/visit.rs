//! What was done at a visit and what the consultation found.

mod observation;

use std::{fmt, str::FromStr};

use chrono::{DateTime, Utc};
use serde::{Deserialize, Serialize};
use uuid::Uuid;

use crate::catalogue::flag::Flag;
pub use crate::findings::{Finding, Findings};
use crate::zones::Zones;
pub use observation::{Observation, Observed};

/// Declares a closed set of snake_case trade terms: the enum, the list of all of them, and both ways of spelling.
macro_rules! terms {
    ($(#[$doc:meta])* $name:ident { $($(#[$vdoc:meta])* $variant:ident = $term:literal),+ $(,)? }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
        pub enum $name { $($(#[$vdoc])* #[serde(rename = $term)] $variant),+ }

        impl $name {
            /// Every term, in the order in which it is shown.
            pub const ALL: &'static [$name] = &[$($name::$variant),+];

            /// The snake_case term, as it is written in files, forms and JSON.
            pub const fn term(self) -> &'static str {
                match self { $($name::$variant => $term),+ }
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(self.term())
            }
        }

        impl FromStr for $name {
            type Err = UnknownTerm;
            fn from_str(given: &str) -> Result<Self, UnknownTerm> {
                Self::ALL.iter().copied().find(|one| one.term() == given).ok_or_else(|| UnknownTerm {
                    given: given.to_owned(),
                    allowed: Self::ALL.iter().map(|one| one.term()).collect::<Vec<_>>().join(", "),
                })
            }
        }
    };
}
pub(crate) use terms;

/// A term that is not in its closed set.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("`{given}` is not known; allowed are {allowed}")]
pub struct UnknownTerm {
    pub given: String,
    pub allowed: String,
}

terms! {
    /// A service of the trade. Which of them the studio can record is decided by the catalogue in `content`.
    Treatment {
        BrowWax = "brow_wax",
        BrowThread = "brow_thread",
        BrowTweeze = "brow_tweeze",
        BrowTint = "brow_tint",
        BrowHenna = "brow_henna",
        BrowLamination = "brow_lamination",
        LashLift = "lash_lift",
        LashTint = "lash_tint",
        LashExtensions = "lash_extensions",
        LipWax = "lip_wax",
        ChinWax = "chin_wax",
        FaceWax = "face_wax",
    }
}

impl Treatment {
    /// Puts colour on the hair.
    pub const fn colours(self) -> bool {
        matches!(self, Self::BrowTint | Self::BrowHenna | Self::LashTint)
    }

    /// Sets the hair in a new direction.
    pub const fn sets(self) -> bool {
        matches!(self, Self::BrowLamination | Self::LashLift)
    }
}

terms! {
    /// A place where hair grows and is treated.
    Area {
        Brow = "brow",
        UpperLash = "upper_lash",
        LowerLash = "lower_lash",
        UpperLip = "upper_lip",
        Chin = "chin",
        SideOfFace = "side_of_face",
        Hairline = "hairline",
    }
}

terms! {
    /// What treated skin or hair is kept from for a while.
    CautionKind {
        Touching = "touching",
        Water = "water",
        Steam = "steam",
        Heat = "heat",
        Exercise = "exercise",
        Swimming = "swimming",
        Sun = "sun",
        MakeUp = "make_up",
        Oil = "oil",
        Exfoliation = "exfoliation",
        Actives = "actives",
        /// Asked only of those who wear them.
        ContactLenses = "contact_lenses",
    }
}

/// A product used at the visit, with the batch that a supplier or doctor would ask for.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Product {
    pub name: String,
    /// Batch or lot as printed on the pack; empty when it was not noted.
    pub batch: String,
}

/// The name or batch of a product as it is compared: capitals and blanks say nothing.
pub fn plain(written: &str) -> String {
    let words: Vec<String> = written.split_whitespace().map(str::to_lowercase).collect();
    words.join(" ")
}

/// Longest texts the record takes, in characters.
pub mod limits {
    pub const NAME: usize = 80;
    pub const REACH: usize = 200;
    pub const PRODUCT: usize = 120;
    pub const BATCH: usize = 60;
    pub const NOTE: usize = 4000;
    /// Products noted at one visit.
    pub const PRODUCTS: usize = 12;
}

/// A visit as the record holds it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Visit {
    pub id: Uuid,
    pub client: Uuid,
    /// The end of the visit: every caution counts from here.
    pub finished_at: DateTime<Utc>,
    /// In the order of [`Treatment::ALL`], each once, at least one.
    pub treatments: Vec<Treatment>,
    pub findings: Findings,
    pub products: Vec<Product>,
    /// The marked zones of the brows.
    #[serde(default)]
    pub zones: Zones,
    pub note: String,
    /// What was seen of the hair removed earlier, in the order of [`Area::ALL`]; empty when nobody looked.
    #[serde(default)]
    pub observations: Vec<Observation>,
    /// What makes a forecast unsure or no use, in the order of [`Flag::ALL`], each once.
    #[serde(default)]
    pub flags: Vec<Flag>,
}
