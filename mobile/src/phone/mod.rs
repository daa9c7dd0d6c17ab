//! What only the browser has: the clock, the phone's storage, the network. Thin wrappers, so that the pages
//! themselves stay free of them.

pub mod artist;
pub mod boot;
pub mod client;
pub mod clock;
pub mod form;
pub mod json;
pub mod live;
pub mod net;
pub mod outbox;
pub mod page_view;
pub mod photos;
pub mod post;
pub mod reading;
pub mod sound;
pub mod store;
pub mod trouble;
pub mod zones;
