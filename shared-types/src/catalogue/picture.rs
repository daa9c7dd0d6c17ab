//! What the drawn picture of regrowth shows, where the model does not say.

use serde::{Deserialize, Serialize};

use super::figure::{Figure, Unit};

/// Follicles are counted on one side; the share is 0 to 1.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PictureRules {
    pub brow_follicles: Figure,
    /// The share outside the shape, where a tidy takes hairs out.
    pub brow_taken_out: Figure,
    pub lid_follicles: Figure,
}

impl PictureRules {
    /// Every figure with its name in the file; they are all shares or bare numbers.
    pub fn all(&self) -> [(&'static str, &Figure, Unit); 3] {
        [
            ("brow_follicles", &self.brow_follicles, Unit::One),
            ("brow_taken_out", &self.brow_taken_out, Unit::One),
            ("lid_follicles", &self.lid_follicles, Unit::One),
        ]
    }

    /// The first figure with which nothing can be drawn: its name and what is allowed.
    pub fn fault(&self) -> Option<(&'static str, &'static str)> {
        let count =
            |figure: &Figure| figure.value.fract() == 0.0 && (1.0..=500.0).contains(&figure.value);
        [
            (
                "brow_follicles",
                count(&self.brow_follicles),
                "a whole number from 1 to 500",
            ),
            (
                "lid_follicles",
                count(&self.lid_follicles),
                "a whole number from 1 to 500",
            ),
            (
                "brow_taken_out",
                (0.0..1.0).contains(&self.brow_taken_out.value),
                "0 to less than 1",
            ),
        ]
        .into_iter()
        .find(|(_, fits, _)| !fits)
        .map(|(name, _, allowed)| (name, allowed))
    }
}
