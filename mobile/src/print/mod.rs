//! What is handed out on paper: a sheet of A4 with everything that was told, and a card to take home. Only the server
//! draws them, and no script runs on them.

mod card;
mod case;
mod parts;
mod sheet;
mod size;

use shared_types::{
    page::{
        client::{AfterList, CautionCard, Due, StudioCard},
        zones::ZonesCard,
    },
    words::Words,
};

pub use card::card;
pub use case::{CasePart, CasePrinted, case};
pub use sheet::sheet;

/// What is printed of one visit, in words throughout.
#[derive(Clone, Copy, Debug)]
pub struct Printed<'a> {
    /// The keys below `print.` and `client.emergency.`.
    pub words: &'a Words,
    pub studio: &'a StudioCard,
    pub first_name: &'a str,
    /// "brow wax"
    pub done: &'a [String],
    /// "Thursday 14:30"
    pub finished: &'a str,
    pub cautions: &'a [CautionCard],
    pub after: &'a [AfterList],
    pub due: Option<&'a Due>,
    /// What else there is to say of the time to come back.
    pub more: &'a [String],
    pub before_next: &'a [String],
    pub zones: Option<&'a ZonesCard>,
    /// The client's link as text and as a code in SVG; empty when it is shut.
    pub url: &'a str,
    pub code: &'a str,
    /// Where the very same words are in the record.
    pub kept: &'a str,
    /// The address from where it was asked for.
    pub back: &'a str,
    /// The other languages that it can be had in: tag and name.
    pub languages: &'a [(String, String)],
}
