//! What the artist decided in the light of the concerns.

use std::{fmt, str::FromStr};

use serde::{Deserialize, Serialize};

use crate::visit::{UnknownTerm, terms};

terms! {
    /// One decision for all that stood against a treatment.
    Decision {
        WentAhead = "went_ahead",
        ChangedTreatment = "changed_treatment",
        /// Nothing was done: there is no visit.
        PutOff = "put_off",
    }
}

/// What the artist said before a treatment, beside what was found. Saying nothing is allowed.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Told {
    /// Whole days since a retinoid was last used on the skin there; `None` when it is not known or still in use.
    pub retinoid_stopped_days: Option<u32>,
    pub decision: Option<Decision>,
    /// Why, in the artist's words.
    pub words: String,
}

impl Told {
    pub fn is_silent(&self) -> bool {
        *self == Self::default()
    }
}
