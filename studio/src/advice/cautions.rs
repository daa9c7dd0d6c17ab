//! The cautions in words.

use chrono::{DateTime, Utc};
use shared_types::{care_plan::CarePlan, page::client::CautionCard};

use crate::pages::wall::Wall;

/// One card for each caution, in the plan's order.
pub(super) fn cards(plan: &CarePlan, wall: &Wall<'_>, finished: DateTime<Utc>) -> Vec<CautionCard> {
    plan.cautions
        .iter()
        .map(|caution| CautionCard {
            id: caution.kind.term().to_owned(),
            what: caution.what(wall.words),
            why: caution.why(wall.words),
            until: wall.moment(caution.until, finished),
            hours: caution.hours,
            basis: wall
                .words
                .say(&format!("grade.{}", caution.grade))
                .to_owned(),
        })
        .collect()
}
