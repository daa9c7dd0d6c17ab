//! Reactions by batch of a product.

use serde::{Deserialize, Serialize};
use uuid::Uuid;

#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct BatchesScreen {
    /// What to do first.
    pub lines: Vec<BatchLine>,
    /// What was counted, in whole sentences.
    pub counted: Vec<String>,
}

/// One batch.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct BatchLine {
    pub product: String,
    pub batch: String,
    /// Whether it stands out.
    pub stands_out: bool,
    /// What to do, in one sentence.
    pub verdict: String,
    /// Why, and what to bear in mind.
    pub said: Vec<String>,
    /// The share with this batch and without it, each with its exact interval.
    pub shares: Vec<String>,
    /// The serious reports after visits with it.
    pub serious: Vec<Uuid>,
}
