//! The content's files as texts, whether built in or from a folder.

use std::{collections::BTreeMap, fs, path::Path};

use crate::error::ContentError;

pub const VERSION: &str = "catalogue/version.toml";
/// A folder: one file for each group of treatments, all of them one table.
pub const TREATMENTS: &str = "catalogue/treatments";
pub const AFTER: &str = "catalogue/after.toml";
pub const CONSULTATION: &str = "catalogue/consultation.toml";
pub const PATCH_TEST: &str = "catalogue/patch_test.toml";
pub const HAIR: &str = "catalogue/hair.toml";
pub const CLOCK: &str = "catalogue/clock.toml";
pub const FLAGS: &str = "catalogue/flags.toml";
pub const REBOOK: &str = "catalogue/rebook.toml";
pub const ZONES: &str = "catalogue/zones.toml";
pub const PICTURE: &str = "catalogue/picture.toml";
pub const BATCHES: &str = "catalogue/batches.toml";
pub const URGENCY: &str = "catalogue/urgency.toml";
pub const SOURCES: &str = "catalogue/sources.toml";
pub const REGIONS: &str = "regions.toml";
pub const LANGUAGES: &str = "languages";

/// Texts by path below the content folder, with `/`.
#[derive(Clone, Debug)]
pub struct Files(pub BTreeMap<String, String>);

macro_rules! built_in {
    ($($path:literal),+ $(,)?) => {
        [$(($path, include_str!(concat!("../", $path)))),+]
    };
}

impl Files {
    pub fn built_in() -> Self {
        let files = built_in![
            "catalogue/version.toml",
            "catalogue/treatments/brow_colour_and_set.toml",
            "catalogue/treatments/brow_hair_removal.toml",
            "catalogue/treatments/face_waxing.toml",
            "catalogue/treatments/lashes.toml",
            "catalogue/after.toml",
            "catalogue/consultation.toml",
            "catalogue/patch_test.toml",
            "catalogue/hair.toml",
            "catalogue/clock.toml",
            "catalogue/flags.toml",
            "catalogue/rebook.toml",
            "catalogue/zones.toml",
            "catalogue/picture.toml",
            "catalogue/urgency.toml",
            "catalogue/batches.toml",
            "catalogue/sources.toml",
            "regions.toml",
            "languages/en/catalogue.toml",
            "languages/en/language.toml",
            "languages/en/client.toml",
            "languages/en/consultation.toml",
            "languages/en/picture.toml",
            "languages/en/occasion.toml",
            "languages/en/artist.toml",
            "languages/en/studio.toml",
            "languages/en/next_visit.toml",
            "languages/en/notices.toml",
            "languages/en/own_advice.toml",
            "languages/en/practice.toml",
            "languages/en/print.toml",
            "languages/en/urgency.toml",
            "languages/en/batches.toml",
            "languages/en/zones.toml",
            "languages/en/trouble.toml",
            "languages/en/desk.toml",
            "languages/en/case.toml",
            "languages/en/patch_test.toml",
            "languages/en/photos.toml",
            "languages/es/catalogue.toml",
            "languages/es/language.toml",
            "languages/es/client.toml",
            "languages/es/consultation.toml",
            "languages/es/picture.toml",
            "languages/es/occasion.toml",
            "languages/es/artist.toml",
            "languages/es/studio.toml",
            "languages/es/next_visit.toml",
            "languages/es/notices.toml",
            "languages/es/own_advice.toml",
            "languages/es/practice.toml",
            "languages/es/print.toml",
            "languages/es/urgency.toml",
            "languages/es/batches.toml",
            "languages/es/zones.toml",
            "languages/es/trouble.toml",
            "languages/es/desk.toml",
            "languages/es/case.toml",
            "languages/es/patch_test.toml",
            "languages/es/photos.toml",
            "languages/fr/catalogue.toml",
            "languages/fr/language.toml",
            "languages/fr/client.toml",
            "languages/fr/consultation.toml",
            "languages/fr/picture.toml",
            "languages/fr/occasion.toml",
            "languages/fr/artist.toml",
            "languages/fr/studio.toml",
            "languages/fr/next_visit.toml",
            "languages/fr/notices.toml",
            "languages/fr/own_advice.toml",
            "languages/fr/practice.toml",
            "languages/fr/print.toml",
            "languages/fr/urgency.toml",
            "languages/fr/batches.toml",
            "languages/fr/zones.toml",
            "languages/fr/trouble.toml",
            "languages/fr/desk.toml",
            "languages/fr/case.toml",
            "languages/fr/patch_test.toml",
            "languages/fr/photos.toml",
        ];
        Self(
            files
                .into_iter()
                .map(|(path, text)| (path.to_owned(), text.to_owned()))
                .collect(),
        )
    }

    pub fn from_folder(folder: &Path) -> Result<Self, ContentError> {
        let mut files = BTreeMap::new();
        for path in [
            VERSION,
            AFTER,
            CONSULTATION,
            PATCH_TEST,
            HAIR,
            CLOCK,
            FLAGS,
            REBOOK,
            ZONES,
            PICTURE,
            URGENCY,
            BATCHES,
            SOURCES,
            REGIONS,
        ] {
            files.insert(path.to_owned(), text(&folder.join(path))?);
        }
        all_of(folder, TREATMENTS, &mut files)?;
        for language in names(&folder.join(LANGUAGES))? {
            all_of(folder, &format!("{LANGUAGES}/{language}"), &mut files)?;
        }
        Ok(Self(files))
    }

    /// The text of a file; a file that is not there is an empty one, and whatever it should say is then missing.
    pub fn text(&self, path: &str) -> &str {
        self.0.get(path).map_or("", String::as_str)
    }

    /// The files of the treatments: path and text.
    pub fn treatments(&self) -> impl Iterator<Item = (&str, &str)> {
        self.0
            .iter()
            .filter(|(path, _)| path.starts_with(TREATMENTS))
            .map(|(path, text)| (path.as_str(), text.as_str()))
    }

    /// The files of the languages: tag, path, text.
    pub fn languages(&self) -> impl Iterator<Item = (&str, &str, &str)> {
        self.0.iter().filter_map(|(path, text)| {
            let tag = path
                .strip_prefix(LANGUAGES)?
                .strip_prefix('/')?
                .split('/')
                .next()?;
            Some((tag, path.as_str(), text.as_str()))
        })
    }
}

/// Adds every TOML file of the folder `place`.
fn all_of(
    folder: &Path,
    place: &str,
    files: &mut BTreeMap<String, String>,
) -> Result<(), ContentError> {
    for file in names(&folder.join(place))? {
        if file.ends_with(".toml") {
            let path = format!("{place}/{file}");
            let text = text(&folder.join(&path))?;
            files.insert(path, text);
        }
    }
    Ok(())
}

fn text(path: &Path) -> Result<String, ContentError> {
    fs::read_to_string(path).map_err(|cause| ContentError::Unreadable {
        path: path.to_owned(),
        cause,
    })
}

/// What a folder holds, leaving out hidden files and loose files of an editor.
fn names(folder: &Path) -> Result<Vec<String>, ContentError> {
    let unreadable = |cause| ContentError::Unreadable {
        path: folder.to_owned(),
        cause,
    };
    let mut names = Vec::new();
    for entry in fs::read_dir(folder).map_err(unreadable)? {
        let name = entry.map_err(unreadable)?.file_name();
        names.extend(
            name.to_str()
                .filter(|name| !name.starts_with('.'))
                .map(str::to_owned),
        );
    }
    names.sort();
    Ok(names)
}
