//! What `content` is read into: which treatments there are, what they call for, and which figures the regrowth model
//! uses. Every number about hours or hair is data and names its source; none stands in code.

pub mod after;
pub mod batches;
pub mod caution;
pub mod clock;
pub mod concern;
pub mod figure;
pub mod flag;
pub mod hair;
pub mod patch_test;
pub mod picture;
pub mod rebook;
pub mod source;
pub mod treatment;
pub mod urgency;
pub mod zones;

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use crate::visit::{Area, Treatment};
use after::AfterRules;
use batches::BatchRules;
use clock::ClockRules;
use concern::ConcernRule;
use flag::{Flag, FlagRule};
use hair::HairFigures;
use patch_test::PatchTestRules;
use picture::PictureRules;
use rebook::RebookRules;
use source::Source;
use treatment::TreatmentEntry;
use urgency::UrgencyRules;
use zones::ZoneRules;

/// The figures and rules of one version of the content, already checked by `content`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Catalogue {
    /// As declared in the content's files.
    pub version: String,
    /// What the studio can record. A term without an entry is known to the trade but not offered yet.
    pub treatments: BTreeMap<Treatment, TreatmentEntry>,
    pub after: AfterRules,
    /// What should stop or delay a treatment, or be asked about first.
    pub concerns: Vec<ConcernRule>,
    pub patch_test: PatchTestRules,
    pub hair: BTreeMap<Area, HairFigures>,
    pub clock: ClockRules,
    pub flags: BTreeMap<Flag, FlagRule>,
    pub rebook: RebookRules,
    pub zones: ZoneRules,
    pub picture: PictureRules,
    /// How soon to act when something is not right.
    pub urgency: UrgencyRules,
    /// When the reactions after one batch are worth a look.
    pub batches: BatchRules,
    /// By id; every rule and figure names one of these.
    pub sources: BTreeMap<String, Source>,
}

impl Catalogue {
    /// Where these treatments are done, in their order; a treatment without an entry is left out.
    pub fn areas(&self, treatments: &[Treatment]) -> Vec<Area> {
        let mut areas = Vec::new();
        for area in treatments
            .iter()
            .filter_map(|one| Some(self.treatments.get(one)?.area))
        {
            if !areas.contains(&area) {
                areas.push(area);
            }
        }
        areas
    }

    /// The terms of the treatments that have an entry, with commas, for a sentence that says what is allowed.
    pub fn offered(&self) -> String {
        self.treatments
            .keys()
            .map(|one| one.term())
            .collect::<Vec<_>>()
            .join(", ")
    }
}
