//! Patch tests: a little of a product on the skin some days before a treatment, and what was seen there. The studio
//! applies it and reads it; in between the client looks, and says what they see.

mod answer;
#[cfg(test)]
mod tests;

use std::{fmt, str::FromStr};

use chrono::{DateTime, TimeDelta, Utc};
use serde::{Deserialize, Serialize};
use uuid::Uuid;

pub use crate::visit::UnknownTerm;
use crate::{
    consultation,
    visit::{Product, Treatment, terms},
};
pub use answer::{Answer, FIELDS};

terms! {
    /// Where it was put on. Words of the artist's own may stand beside it.
    Place {
        BehindTheEar = "behind_the_ear",
        InnerElbow = "inner_elbow",
        Elsewhere = "elsewhere",
    }
}

terms! {
    /// What the skin showed. It is no diagnosis.
    Outcome {
        NoReaction = "no_reaction",
        Reacted = "reacted",
        /// Somebody looked and could not say.
        Unclear = "unclear",
    }
}

terms! {
    /// What the client sees when they look.
    Noticed {
        Nothing = "nothing",
        /// Red, itchy, sore or swollen.
        Something = "something",
        NotSure = "not_sure",
    }
}

/// Longest words beside the place, in characters.
pub const PLACE_WORDS_MAX: usize = 80;

/// A test as it was put on.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Applied {
    pub id: Uuid,
    pub client: Uuid,
    /// What it is for, in the order of [`Treatment::ALL`], each once, at least one.
    pub treatments: Vec<Treatment>,
    pub product: Product,
    pub place: Place,
    /// Empty unless the artist said more; never empty for [`Place::Elsewhere`].
    pub place_words: String,
    pub applied_at: DateTime<Utc>,
    /// Hours after which to look, as the content had them then, rising.
    pub look_hours: Vec<u32>,
    pub note: String,
}

impl Applied {
    /// The instants at which to look: so many elapsed hours after it was put on, also across a clock change.
    pub fn looks(&self) -> impl Iterator<Item = (u32, DateTime<Utc>)> {
        let hours = self.look_hours.iter().copied();
        hours.map(|n| (n, self.applied_at + TimeDelta::hours(n.into())))
    }

    /// The first time to look that is still to come.
    pub fn next_look(&self, now: DateTime<Utc>) -> Option<DateTime<Utc>> {
        self.looks().map(|(_, at)| at).find(|at| *at > now)
    }

    /// Whether these products are others than the one that was tested. Nothing is known while none is named.
    pub fn is_of_other_than(&self, products: &[Product]) -> bool {
        let name = |product: &Product| product.name.trim().to_lowercase();
        let tested = name(&self.product);
        !products.is_empty() && products.iter().all(|one| name(one) != tested)
    }
}

/// Something that was seen of a test.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Look {
    /// The artist read it. A later reading corrects an earlier one.
    Read(Outcome),
    /// The client said so.
    Told(Noticed),
}

/// What a test stands at after everything that was seen, the earliest first: the latest word counts. That a client sees
/// nothing is not yet a reading, and takes nothing back that an artist read; that they see something counts at once.
/// `None` while nobody has read it.
pub fn stands_at(looks: impl IntoIterator<Item = Look>) -> Option<Outcome> {
    looks.into_iter().fold(None, |before, look| match look {
        Look::Read(outcome) => Some(outcome),
        Look::Told(Noticed::Something) => Some(Outcome::Reacted),
        // Not to be sure makes nothing better.
        Look::Told(Noticed::NotSure) if before != Some(Outcome::Reacted) => Some(Outcome::Unclear),
        Look::Told(_) => before,
    })
}

/// What the rules before a treatment ask of a test, once for each treatment that it is for. `products` are today's.
pub fn before_treatment(
    test: &Applied,
    outcome: Option<Outcome>,
    products: &[Product],
) -> Vec<consultation::PatchTest> {
    let product_changed = test.is_of_other_than(products);
    let for_one = |treatment: &Treatment| consultation::PatchTest {
        treatment: *treatment,
        applied_at: test.applied_at,
        outcome,
        product_changed,
    };
    test.treatments.iter().map(for_one).collect()
}
