//! The record: one SQLite file to which is added what happened. One file of code per subject; every statement has
//! its values bound, never written into it.

pub mod advice;
pub mod artists;
pub mod batches;
pub mod clients;
mod columns;
pub mod consultations;
pub mod languages;
pub mod links;
pub mod live;
mod migrations;
pub mod not_again;
pub mod notices;
pub mod occasions;
mod open;
pub mod outcomes;
pub mod patch_tests;
pub mod photos;
pub mod reports;
pub mod sessions;
pub mod stamp;
pub mod studio;
pub mod versions;
pub mod visits;
pub mod wishes;
pub mod zones;

use std::path::PathBuf;

pub use columns::At;
pub use open::{FILE, Origin, Record};

/// Why the record could not be opened, read or added to.
#[derive(Debug, thiserror::Error)]
pub enum RecordError {
    #[error("the data folder {path} cannot be used: {source}")]
    Folder {
        path: PathBuf,
        source: std::io::Error,
    },
    #[error("the record could not be read or written: {0}")]
    Sqlite(#[from] rusqlite::Error),
    #[error(
        "the record was written by a newer studio (its schema is {found}, this one knows {known}): start the newer program again"
    )]
    Newer { found: i64, known: i64 },
    #[error(
        "the data folder holds a real studio's record: start without --demo, or give --demo a folder of its own with --data"
    )]
    NotADemo,
    #[error(
        "the data folder holds a demo record: start with --demo, or choose another folder with --data"
    )]
    IsADemo,
    #[error("the record holds something that this program cannot read: {0}")]
    Unreadable(String),
    #[error("the record is being closed")]
    Closing,
}
