//! What the tests share: a real server, a real browser, and the network between them.

// A test that cannot go on stops where it stands: that is how it fails.
#![allow(clippy::expect_used, clippy::panic)]

pub mod browser;
pub mod network;
pub mod server;
pub mod visitor;
pub mod words;
