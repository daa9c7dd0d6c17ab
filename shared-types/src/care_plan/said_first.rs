//! Which of the cautions that hold now the page names in its first sentence.

use crate::visit::CautionKind;

/// How many it names: the list of all of them stands below it.
const AT_MOST: usize = 3;

/// Those that fit into such a sentence, what matters most first: the others follow from these, or are clearer in the
/// list. The words are `client.now.keep.<kind>`.
pub const SAID_FIRST: [CautionKind; 8] = [
    CautionKind::Water,
    CautionKind::Heat,
    CautionKind::Touching,
    CautionKind::Sun,
    CautionKind::Swimming,
    CautionKind::MakeUp,
    CautionKind::Actives,
    CautionKind::Oil,
];

/// Of the kinds that hold now, those that the first sentence names, in their order.
pub fn said_first(holds: impl Fn(CautionKind) -> bool) -> impl Iterator<Item = CautionKind> {
    SAID_FIRST
        .into_iter()
        .filter(move |kind| holds(*kind))
        .take(AT_MOST)
}
