//! What the tests share: a real server, a real browser, and the network between them.

pub mod begin;
pub mod browser;
pub mod content_folder;
pub mod events;
pub mod mail_server;
pub mod network;
pub mod photos;
pub mod python;
pub mod report;
pub mod server;
pub mod tls;
pub mod traffic;
pub mod visit_form;
pub mod visitor;
pub mod wait;
pub mod words;
