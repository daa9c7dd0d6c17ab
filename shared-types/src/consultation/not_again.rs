//! Products that are not to be used again for somebody, since a report.

use serde::{Deserialize, Serialize};

use crate::visit::{Product, plain};

/// A product, or one batch of it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct NotAgain {
    pub product: String,
    /// Empty for the whole product.
    pub batch: String,
}

impl NotAgain {
    /// Whether it is about this product: the same name and batch but for blanks and capitals. Where the
    /// batch is not entered, it may be the one.
    pub fn is_of(&self, product: &Product) -> bool {
        let (ours, theirs) = (plain(&self.batch), plain(&product.batch));
        plain(&self.product) == plain(&product.name)
            && (ours.is_empty() || theirs.is_empty() || ours == theirs)
    }

    /// Whether another entry is about the very same.
    pub fn is_same(&self, other: &Self) -> bool {
        (plain(&self.product), plain(&self.batch)) == (plain(&other.product), plain(&other.batch))
    }

    /// "Velm soft wax, VW 2261", or the name alone for the whole product.
    pub fn name(&self) -> String {
        if self.batch.is_empty() {
            self.product.clone()
        } else {
            format!("{}, {}", self.product, self.batch)
        }
    }
}

/// What of these products is not to be used again, each once, by the names noted.
pub(super) fn entered(products: &[Product], not_again: &[NotAgain]) -> Vec<String> {
    let of_today = |one: &&NotAgain| products.iter().any(|product| one.is_of(product));
    not_again
        .iter()
        .filter(of_today)
        .map(NotAgain::name)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn product(name: &str, batch: &str) -> Product {
        Product {
            name: name.to_owned(),
            batch: batch.to_owned(),
        }
    }

    fn not(product: &str, batch: &str) -> NotAgain {
        NotAgain {
            product: product.to_owned(),
            batch: batch.to_owned(),
        }
    }

    #[test]
    fn a_batch_is_meant_alone_and_a_product_whole() {
        let wax = product("velm soft wax ", "VW 2261");
        assert!(not("Velm soft wax", "").is_of(&wax));
        assert!(not("Velm soft wax", "vw 2261").is_of(&wax));
        // As the counts by batch read it.
        assert!(not("Velm  soft wax", "VW  2261").is_of(&wax));
        assert!(!not("Velm soft wax", "VW 9").is_of(&wax));
        assert!(!not("Velm wax", "").is_of(&wax));
        // Which batch is not known: it may be the one.
        assert!(not("Velm soft wax", "VW 9").is_of(&product("Velm soft wax", "")));
    }

    #[test]
    fn only_what_is_entered_today_is_named() {
        let noted = [not("Velm soft wax", ""), not("Orrin tint", "OT1")];
        let today = [product("Orrin tint", "OT1")];
        assert_eq!(entered(&today, &noted), ["Orrin tint, OT1"]);
        assert!(entered(&[], &noted).is_empty());
    }
}
