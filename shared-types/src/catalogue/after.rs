//! How treated skin and hair settle: what is ordinary and for how long, what is not, and how to care for it.

use serde::{Deserialize, Serialize};

use super::caution::Grade;
use crate::visit::{CautionKind, Finding, Treatment};

/// The rules over all treatments, each list in the order in which it is told.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AfterRules {
    pub ordinary: Vec<OrdinaryRule>,
    pub not_ordinary: Vec<WarningRule>,
    pub tips: Vec<TipRule>,
}

/// Something that is ordinary for a while. Its sentence is the word `ordinary.<id>`.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OrdinaryRule {
    pub id: String,
    pub treatments: Vec<Treatment>,
    /// Elapsed hours from the end of the visit; after them it is ordinary no more.
    pub hours: u32,
    pub grade: Grade,
    pub sources: Vec<String>,
}

/// Something that never is. Its sentence is the word `not_ordinary.<id>`, and names no condition.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WarningRule {
    pub id: String,
    pub treatments: Vec<Treatment>,
    pub grade: Grade,
    pub sources: Vec<String>,
}

/// How to care for it. Its sentence is the word `tip.<id>`, with `{area}` for what is treated.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TipRule {
    pub id: String,
    pub treatments: Vec<Treatment>,
    /// What doing it involves: the tip counts from when the cautions of these kinds are over, so that it never
    /// contradicts one.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub involves: Vec<CautionKind>,
    /// Given only when one of these was found; always when there are none.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub only_with: Vec<Finding>,
    pub grade: Grade,
    pub sources: Vec<String>,
}
