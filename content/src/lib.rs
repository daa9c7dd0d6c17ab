//! What is said and which figures are used: data files, and the reader that checks them.
//!
//! ```text
//! catalogue/version.toml      what this content calls itself
//! catalogue/treatments/*.toml cautions, trade intervals, what to do before the next visit
//! catalogue/after.toml        what is ordinary afterwards, what is not, how to care for it
//! catalogue/consultation.toml what should stop or delay a treatment
//! catalogue/patch_test.toml   when to look at a patch test
//! catalogue/hair.toml         figures of the regrowth model, by area
//! catalogue/clock.toml        how people differ in the pace of their hair
//! catalogue/flags.toml        what makes hair return in a way that no forecast can follow
//! catalogue/rebook.toml       when regrowth makes a next visit possible, good and overdue
//! catalogue/zones.toml        how long a zone of a brow that is let grow may take
//! catalogue/picture.toml      what the picture of regrowth draws
//! catalogue/urgency.toml      how soon to act when something is not right
//! catalogue/batches.toml      when the reactions after one batch are worth a look
//! catalogue/sources.toml      who says so
//! regions.toml                emergency numbers
//! languages/<tag>/*.toml      words by dotted key; all files of a language are one set of words
//! ```
//!
//! A mistake in any of them is told with file, line and what is wrong, all at once, and nothing is half used.

mod check;
mod error;
mod files;
mod read;
mod version;
mod words;

use std::{collections::BTreeMap, path::Path};

use shared_types::{
    catalogue::{Catalogue, source::Region},
    page::client::EmergencyNumber,
    words::Words,
};

pub use check::OTHER_REGION;
pub use error::{ContentError, Mistake};
use files::Files;

/// Content that has been read and checked.
#[derive(Clone, Debug, PartialEq)]
pub struct Content {
    /// The declared version, a hyphen, and eight hexadecimal digits of a hash over every file: changed words or
    /// figures always change it, whoever forgot to declare a new version.
    pub version: String,
    pub catalogue: Catalogue,
    /// By id, as the studio's setting names it.
    pub regions: BTreeMap<String, Region>,
    /// By BCP 47 tag.
    pub languages: BTreeMap<String, Words>,
}

impl Content {
    /// The content that this program was built with.
    ///
    /// # Errors
    /// Every mistake in the files; the tests of this crate keep that from being shipped.
    pub fn built_in() -> Result<Self, ContentError> {
        Self::read(&Files::built_in())
    }

    /// The content of a folder laid out as above, so that a studio may change its words without a new build.
    ///
    /// # Errors
    /// A file that cannot be read, or every mistake in the files.
    pub fn from_folder(folder: &Path) -> Result<Self, ContentError> {
        Self::read(&Files::from_folder(folder)?)
    }

    /// The emergency number of a region in a language; that of `other` for an unknown region. `None` for an unknown
    /// language.
    pub fn emergency(&self, region: &str, language: &str) -> Option<EmergencyNumber> {
        let words = self.languages.get(language)?;
        let id = if self.regions.contains_key(region) {
            region
        } else {
            OTHER_REGION
        };
        let dial = self.regions.get(id)?.emergency_dial.clone();
        Some(EmergencyNumber {
            text: words.say(&format!("emergency.{id}")).to_owned(),
            dial,
            rinse_minutes: self.rinse_minutes(),
        })
    }

    /// How long an eye is rinsed, in whole minutes.
    pub fn rinse_minutes(&self) -> u32 {
        // The content's check lets nothing else through.
        self.catalogue
            .urgency
            .whole("rinse_minutes")
            .unwrap_or_default()
    }

    fn read(files: &Files) -> Result<Self, ContentError> {
        let declared = read::version(files)?;
        let content = Self {
            version: version::of(&declared, files),
            catalogue: read::catalogue(files, declared)?,
            regions: read::regions(files)?,
            languages: words::languages(files)?,
        };
        let mistakes = check::mistakes(&content, files);
        if mistakes.is_empty() {
            Ok(content)
        } else {
            Err(ContentError::Mistakes(mistakes))
        }
    }
}
