//! The studio's side: the server and its record, links and their codes, the command line.

pub mod advice;
pub mod announce;
pub mod batches;
pub mod cache;
pub mod calendar;
pub mod cli;
pub mod compress;
pub mod data_folder;
pub mod demo;
pub mod error;
pub mod handlers;
pub mod language;
pub mod links;
pub mod live;
pub mod logging;
pub mod notices;
pub mod options;
pub mod pages;
pub mod photos;
pub mod record;
pub mod reload;
pub mod routes;
pub mod security;
pub mod serve;
pub mod site;
pub mod state;
