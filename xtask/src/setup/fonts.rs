//! Two families of type, so that a screenshot taken here looks like one taken elsewhere.

use std::path::Path;

use super::apt;
use crate::failure::Failure;

const FAMILIES: [(&str, &str); 2] = [
    ("liberation", "fonts-liberation"),
    ("dejavu", "fonts-dejavu-core"),
];

pub fn ensure() -> Result<(), Failure> {
    let folder = Path::new("/usr/share/fonts/truetype");
    let missing: Vec<&str> = FAMILIES
        .iter()
        .filter(|(family, _)| !folder.join(family).is_dir())
        .map(|(_, package)| *package)
        .collect();
    if missing.is_empty() {
        return Ok(());
    }
    apt::install(&missing, "Screenshots need type to be drawn with.")
}
