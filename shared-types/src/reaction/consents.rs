//! What the sender of a report agrees to.

use std::{fmt, str::FromStr};

use serde::{Deserialize, Serialize};

use crate::visit::{UnknownTerm, terms};

terms! {
    /// What a consent is for. The words to tick are `consent.<term>`, those of what was ticked `agreed.<term>`.
    Purpose {
        Report = "report",
        Photos = "photos",
        Supplier = "supplier",
    }
}

impl Purpose {
    /// The form's field that is ticked for it.
    pub const fn field(self) -> &'static str {
        match self {
            Self::Report => "consent",
            Self::Photos => "consent_photos",
            Self::Supplier => "consent_supplier",
        }
    }
}

/// What was agreed to, each by the version of the text that was ticked; `None` when it was left unticked (GDPR Art.
/// 9(2)(a): explicit, and for each purpose by itself).
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Consents {
    /// That the studio keeps what the report says about health. Without it nothing is sent.
    pub report: Option<String>,
    /// That it keeps the photos.
    pub photos: Option<String>,
    /// That it passes the report on, without a name, to whoever supplied the product.
    pub supplier: Option<String>,
}

impl Consents {
    /// The version of the text that was ticked for a purpose.
    pub fn of(&self, purpose: Purpose) -> Option<&str> {
        let version = match purpose {
            Purpose::Report => &self.report,
            Purpose::Photos => &self.photos,
            Purpose::Supplier => &self.supplier,
        };
        version.as_deref()
    }
}
