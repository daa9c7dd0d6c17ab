//! A copy of the shipped content with one change.

use std::{
    fs,
    path::{Path, PathBuf},
};

use content::{Content, ContentError, Mistake};
use tempfile::TempDir;

pub struct Copy {
    folder: TempDir,
}

impl Copy {
    pub fn of_the_shipped_content() -> Self {
        let shipped = Path::new(env!("CARGO_MANIFEST_DIR"));
        let folder = TempDir::new().unwrap();
        for place in ["catalogue", "regions.toml", "languages"] {
            copy(&shipped.join(place), &folder.path().join(place));
        }
        Self { folder }
    }

    /// The same without the other languages, so that what is wrong in English is told once.
    pub fn in_english() -> Self {
        let copy = Self::of_the_shipped_content();
        for entry in fs::read_dir(copy.path("languages")).unwrap() {
            let folder = entry.unwrap();
            if folder.file_name() != "en" {
                fs::remove_dir_all(folder.path()).unwrap();
            }
        }
        copy
    }

    pub fn path(&self, file: &str) -> PathBuf {
        self.folder.path().join(file)
    }

    /// Replaces the first `old` after `section` in `file` and gives the line on which it stood.
    pub fn change(&self, file: &str, section: &str, old: &str, new: &str) -> usize {
        let text = fs::read_to_string(self.path(file)).unwrap();
        let begin = text.find(section).expect("the section is there");
        let at = begin + text[begin..].find(old).expect("the old text is there");
        fs::write(
            self.path(file),
            format!("{}{new}{}", &text[..at], &text[at + old.len()..]),
        )
        .unwrap();
        text[..at].matches('\n').count() + 1
    }

    pub fn add(&self, file: &str, text: &str) {
        let before = fs::read_to_string(self.path(file)).unwrap_or_default();
        fs::create_dir_all(self.path(file).parent().unwrap()).unwrap();
        fs::write(self.path(file), before + text).unwrap();
    }

    pub fn read(&self) -> Result<Content, ContentError> {
        Content::from_folder(self.folder.path())
    }

    /// The mistakes that are found; the content must not be taken.
    pub fn mistakes(&self) -> Vec<Mistake> {
        match self.read() {
            Err(ContentError::Mistakes(mistakes)) => mistakes,
            Err(other) => panic!("{other}"),
            Ok(_) => panic!("the content was taken"),
        }
    }

    /// The one mistake, as it is told.
    pub fn mistake(&self) -> String {
        let mistakes = self.mistakes();
        assert_eq!(mistakes.len(), 1, "{mistakes:#?}");
        mistakes[0].to_string()
    }
}

fn copy(from: &Path, to: &Path) {
    if from.is_file() {
        fs::copy(from, to).unwrap();
        return;
    }
    fs::create_dir_all(to).unwrap();
    for entry in fs::read_dir(from).unwrap() {
        let name = entry.unwrap().file_name();
        copy(&from.join(&name), &to.join(&name));
    }
}
