//! What a treatment keeps skin or hair from, for how long, and who says so.

use std::{collections::BTreeMap, fmt, str::FromStr};

use serde::{Deserialize, Serialize};

use crate::visit::{CautionKind, Finding, Findings, UnknownTerm, terms};

terms! {
    /// Who says so, strongest first.
    Grade {
        /// A regulator, a health service, a professional body or a product's label.
        RegulatorOrHealthService = "regulator_or_health_service",
        /// A peer-reviewed study or a textbook.
        StudyOrTextbook = "study_or_textbook",
        /// Handbooks and habit of the trade; nobody has measured it.
        CommonPractice = "common_practice",
    }
}

/// One caution of one treatment. Hours are elapsed hours from the end of the visit.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CautionRule {
    pub kind: CautionKind,
    /// Which reason the client is given, where it is another than usual for this kind; see [`CautionRule::why_key`].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub why: Option<String>,
    /// Asked for only when one of these was found; always when there are none.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub only_with: Vec<Finding>,
    /// Put in other words when this was found, so that it does not contradict what the artist did: the sentence is
    /// then `caution.<kind>.what_<word>`.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub said_with: BTreeMap<Finding, String>,
    pub hours: u32,
    /// The range within which the sources lie, ends included: every other number of hours here is inside it.
    pub least_hours: u32,
    pub most_hours: u32,
    /// The hours instead, when the consultation found this. The longest that applies counts.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub hours_with: BTreeMap<Finding, u32>,
    pub grade: Grade,
    /// Ids of sources, the one that carries the hours first.
    pub sources: Vec<String>,
}

impl CautionRule {
    /// The key of the sentence that gives the reason: `caution.<kind>.why`, or `caution.<kind>.why_<why>`.
    pub fn why_key(&self) -> String {
        match &self.why {
            Some(why) => format!("caution.{}.why_{why}", self.kind),
            None => format!("caution.{}.why", self.kind),
        }
    }

    /// The word with which it is said when one of [`CautionRule::said_with`] was found.
    pub fn said(&self, findings: Findings) -> Option<&str> {
        let said = self.said_with.iter();
        said.filter(|(finding, _)| findings.has(**finding))
            .map(|(_, word)| word.as_str())
            .next()
    }

    /// The hours for these findings, and the findings that made them longer than [`CautionRule::hours`].
    pub fn hours_for(&self, findings: Findings) -> (u32, Vec<Finding>) {
        let longer: Vec<(Finding, u32)> = self
            .hours_with
            .iter()
            .map(|(finding, hours)| (*finding, *hours))
            .filter(|(finding, hours)| findings.has(*finding) && *hours > self.hours)
            .collect();
        let hours = longer
            .iter()
            .map(|(_, hours)| *hours)
            .max()
            .unwrap_or(self.hours);
        (
            hours,
            longer.into_iter().map(|(finding, _)| finding).collect(),
        )
    }
}
