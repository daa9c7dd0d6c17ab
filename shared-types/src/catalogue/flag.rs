//! What makes hair return in a way that no forecast can follow.

use std::{fmt, str::FromStr};

use serde::{Deserialize, Serialize};

use super::figure::Figure;
use crate::visit::{UnknownTerm, terms};

terms! {
    /// Something that a consultation may find. Its sentence for the client, which names no condition, is the word
    /// `forecast_flag.<term>`.
    Flag {
        GrowthSerum = "growth_serum",
        GrowthSlowingCream = "growth_slowing_cream",
        Pregnancy = "pregnancy",
        Thyroid = "thyroid",
        Alopecia = "alopecia",
        Chemotherapy = "chemotherapy",
    }
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FlagRule {
    pub effect: Effect,
    /// Ids of sources.
    pub sources: Vec<String>,
}

/// What a flag does to a forecast.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Effect {
    /// So many times as unsure about the person's clock: 1 or more.
    Widen(Figure),
    /// No forecast: a sentence instead of a number.
    Off,
}
