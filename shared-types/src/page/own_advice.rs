//! The screens on which a studio sets its own cautions, and what the labels of its products say.

use serde::{Deserialize, Serialize};

use super::form::Filled;

/// All cautions, by treatment.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct CautionsScreen {
    /// "Last changed Thursday 14:30 by Ilse"; empty when nothing was set yet.
    pub changed: String,
    pub treatments: Vec<TreatmentCautions>,
    /// Those that the studio added.
    pub added: Vec<CautionRow>,
}

#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct TreatmentCautions {
    pub term: String,
    pub name: String,
    pub rows: Vec<CautionRow>,
    /// How many of them are the studio's own; empty when none is.
    pub own: String,
}

/// One caution, with the way to change it.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct CautionRow {
    /// The path of its own screen.
    pub address: String,
    pub what: String,
    /// "48 hours; usual 24 to 48"
    pub hours: String,
    /// Whose it is, and why it lies outside the range, where it does.
    pub basis: String,
    pub is_own: bool,
}

/// One of the catalogue's cautions, to be changed. Fields: `hours, what, why, reason`; `usual`, the button that takes the
/// studio's own away.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct ChangeCaution {
    pub form: Filled,
    pub address: String,
    /// The treatment, and what the catalogue says.
    pub treatment: String,
    pub what: String,
    pub why: String,
    /// "48 hours, from 24 to 48 by its sources"
    pub range: String,
    /// What a consultation may make longer, in words; empty when nothing does.
    pub longer: String,
    pub basis: String,
    pub sources: Vec<SourceLine>,
    /// Whether something is set that can be taken away.
    pub is_own: bool,
}

/// Who says so. The address is empty where there is no page.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct SourceLine {
    pub title: String,
    pub address: String,
}

/// One caution of the studio's own. Fields: `treatments*, what, why, hours`; `remove`, the button that takes it away.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct AddCaution {
    pub form: Filled,
    pub address: String,
    /// Term and name of each treatment.
    pub treatments: Vec<(String, String)>,
    /// Whether it is there already.
    pub is_kept: bool,
}

/// What the labels of products say. Fields: `product, kind, hours, words, treatments*`; with `remove` the product and kind
/// alone.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct LabelsScreen {
    pub form: Filled,
    pub changed: String,
    pub labels: Vec<LabelRow>,
    pub known_products: Vec<String>,
    /// Term and words of each kind of caution.
    pub kinds: Vec<(String, String)>,
    pub treatments: Vec<(String, String)>,
}

#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct LabelRow {
    pub product: String,
    /// The term of the kind.
    pub kind: String,
    /// "No sauna, steam room or hot bath: 72 hours"
    pub said: String,
    /// Word for word; may be empty.
    pub words: String,
    /// After which treatments; empty for all.
    pub treatments: String,
}

/// One caution of a visit, and whose it is.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct WhoseLine {
    pub what: String,
    /// Why it is asked for, how sure it is, and who says so.
    pub said: String,
    /// Why its hours lie outside the range; empty when they do not.
    pub reason: String,
    pub sources: Vec<SourceLine>,
}
