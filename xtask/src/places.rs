//! Where things lie in the checkout.

use std::path::{Path, PathBuf};

/// The checkout's top folder.
pub fn root() -> &'static Path {
    let xtask = Path::new(env!("CARGO_MANIFEST_DIR"));
    xtask.parent().unwrap_or(xtask)
}

/// What is built, by cargo and by us.
pub fn target() -> PathBuf {
    root().join("target")
}

/// What the server hands to browsers under `/pkg/`.
pub fn site() -> PathBuf {
    target().join("site")
}

/// Programs and scripts fetched for building and testing.
pub fn tools() -> PathBuf {
    target().join("tools")
}

/// What is served as it is: styles, icons, the service worker.
pub fn assets() -> PathBuf {
    root().join("assets")
}
