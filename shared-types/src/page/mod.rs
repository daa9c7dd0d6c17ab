//! What a page is drawn from: one plain type for the client's page and one for the artist's screens. The server
//! fills it in, renders it, and sends it along, so that the browser draws the very same page again.
//!
//! No clock in rendering: `now` is part of the state.

pub mod artist;
pub mod batches;
pub mod before;
pub mod client;
pub mod form;
pub mod notices;
pub mod own_advice;
pub mod patch_tests;
pub mod picture;
pub mod reports;
pub mod trouble;
pub mod wishes;
pub mod zones;
