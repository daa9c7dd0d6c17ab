//! The client's page and the artist's screens, as components. The server renders them to HTML; the browser entries
//! in `bin/` bring the same components to life over that HTML.
//!
//! No clock, no randomness and no lookup order that could differ: what is drawn follows from the page's state alone,
//! or the browser would number the page's parts differently from the server.

pub mod artist;
pub mod brow;
pub mod client;
pub mod parts;
pub mod patch_test;
#[cfg(target_arch = "wasm32")]
pub mod phone;
pub mod picture;
pub mod print;
