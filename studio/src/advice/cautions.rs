//! The cautions in words, and whose advice each is.

use chrono::{DateTime, Utc};
use shared_types::{care_plan::CarePlan, catalogue::Catalogue, page::client::CautionCard};

use crate::pages::{sources, wall::Wall};

/// One card for each caution by its end, those of the catalogue's kinds in the plan's order before those that the studio,
/// which is called `studio`, has added.
pub(super) fn cards(
    catalogue: &Catalogue,
    plan: &CarePlan,
    wall: &Wall<'_>,
    finished: DateTime<Utc>,
    studio: &str,
) -> Vec<CautionCard> {
    let words = wall.words;
    let of_kinds = plan.cautions.iter().map(|caution| CautionCard {
        id: caution.kind.term().to_owned(),
        what: caution.what(words),
        why: caution.why(words),
        until: wall.moment(caution.until, finished),
        hours: caution.hours,
        basis: sources::whose(catalogue, caution, studio, words),
    });
    let added = plan.added.iter().map(|one| CautionCard {
        id: format!("own-{}", one.id),
        what: one.what.clone(),
        why: one.why.clone(),
        until: wall.moment(one.until, finished),
        hours: one.hours,
        basis: words.fill("whose.studio", &[("studio", studio)]),
    });
    let mut cards: Vec<CautionCard> = of_kinds.chain(added).collect();
    cards.sort_by_key(|card| card.until.at);
    cards
}
