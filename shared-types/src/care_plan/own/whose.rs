//! Whose advice a caution is.

use serde::{Deserialize, Serialize};

use super::{LABEL_SOURCE, STUDIO_SOURCE};
use crate::catalogue::caution::{CautionRule, Grade};

/// Who set the hours. Advice from before this could be said is the catalogue's.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Whose {
    /// By its grade and sources.
    #[default]
    Catalogue,
    Studio {
        /// Why the hours lie outside the catalogue's range; empty when they do not. Never for the client.
        #[serde(default, skip_serializing_if = "String::is_empty")]
        reason: String,
    },
    Label {
        product: String,
    },
}

impl Whose {
    /// As JSON answers it.
    pub const fn term(&self) -> &'static str {
        match self {
            Whose::Catalogue => "catalogue",
            Whose::Studio { .. } => "studio",
            Whose::Label { .. } => "label",
        }
    }

    /// The backing of the hours, given the catalogue's rule where there is one.
    pub(in crate::care_plan) fn grade(&self, rule: Option<&CautionRule>) -> Grade {
        match (self, rule) {
            (Whose::Label { .. }, _) => Grade::RegulatorOrHealthService,
            (Whose::Catalogue, Some(rule)) => rule.grade,
            (Whose::Studio { .. } | Whose::Catalogue, _) => Grade::CommonPractice,
        }
    }

    /// Ids of the sources of the hours.
    pub(in crate::care_plan) fn sources(&self, rule: Option<&CautionRule>) -> Vec<String> {
        match (self, rule) {
            (Whose::Label { .. }, _) => vec![LABEL_SOURCE.to_owned()],
            (Whose::Studio { .. }, _) => vec![STUDIO_SOURCE.to_owned()],
            (Whose::Catalogue, Some(rule)) => rule.sources.clone(),
            (Whose::Catalogue, None) => Vec::new(),
        }
    }

    /// Among cautions of as many hours: the label is named first, and the studio last.
    pub(in crate::care_plan) const fn rank(&self) -> u8 {
        match self {
            Whose::Label { .. } => 0,
            Whose::Catalogue => 1,
            Whose::Studio { .. } => 2,
        }
    }
}
