//! What should stop or delay a treatment, or be asked about first. The rules inform; the artist decides.

use std::{fmt, str::FromStr};

use serde::{Deserialize, Serialize};

use super::{caution::Grade, flag::Flag};
use crate::visit::{Finding, Treatment, UnknownTerm, terms};

terms! {
    /// What the sources would do, the firmest first.
    Weight {
        /// Not do it at all.
        LeaveOut = "leave_out",
        /// Do it later.
        Wait = "wait",
        /// Ask or look first.
        CheckFirst = "check_first",
    }
}

/// One concern. Its sentence for the artist is the word `concern.<id>`, with `{treatments}` for those it touches and
/// `{n}` for the number of [`ConcernRule::lead_of`].
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ConcernRule {
    pub id: String,
    pub treatments: Vec<Treatment>,
    pub weight: Weight,
    pub when: Condition,
    /// Ids of the regions in which it holds; everywhere when there are none.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub regions: Vec<String>,
    /// Id of the rule in the treatments' `before_next` that says how long before: the time itself stands only there.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lead_of: Option<String>,
    pub grade: Grade,
    pub sources: Vec<String>,
}

/// When a concern arises.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Condition {
    /// Whenever the treatment is to be done.
    Always,
    /// One of these was found.
    Found(Vec<Finding>),
    /// One of these makes the forecast unsure; such things matter to skin as well.
    Flagged(Vec<Flag>),
    /// A retinoid on the skin is in use, or was stopped more lately than the lead of `lead_of`.
    RetinoidNotStopped,
    /// The treatment was last done fewer days ago than its earliest interval.
    TooSoon,
    PatchTestMissing,
    /// The newest skin test was put on less than the lead of `lead_of` ago.
    PatchTestTooYoung,
    /// The newest skin test is older than so many days; the studio may set its own limit.
    PatchTestOlderThanDays(u32),
    /// The product is another than the one that was tested.
    ProductChanged,
    /// The skin test showed a reaction.
    PatchTestReacted,
    /// Somebody looked at the skin test and could not say.
    PatchTestUnclear,
    /// A product that is entered was noted as not to be used again for this client.
    ProductNotAgain,
    /// Nobody has noted yet what the skin test showed.
    PatchTestUnread,
}
