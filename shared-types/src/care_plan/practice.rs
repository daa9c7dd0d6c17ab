//! How one studio does things: what it sets for itself beside what the catalogue says.

use serde::{Deserialize, Serialize};

/// The studio's own settings for when clients come back. A new studio has none.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Practice {}
