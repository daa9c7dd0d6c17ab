//! A copy of the shipped content in a folder of its own, for a studio that is started with `--content`.

use std::{
    fs,
    path::{Path, PathBuf},
};

use tempfile::TempDir;

pub struct ContentFolder(TempDir);

impl ContentFolder {
    pub fn new() -> Self {
        let shipped = Path::new(env!("CARGO_MANIFEST_DIR")).join("../content");
        let folder = Self(tempfile::tempdir().expect("a folder"));
        for place in ["catalogue", "languages", "regions.toml"] {
            copy(&shipped.join(place), &folder.path().join(place));
        }
        folder
    }

    pub fn path(&self) -> &Path {
        self.0.path()
    }

    /// As an option's value.
    pub fn option(&self) -> &str {
        self.path().to_str().expect("UTF-8")
    }

    fn file(&self, file: &str) -> PathBuf {
        self.path().join(file)
    }

    /// Writes a file anew; gives what it held.
    pub fn rewrite(&self, file: &str, change: impl FnOnce(&str) -> String) -> String {
        let before = fs::read_to_string(self.file(file)).expect("a file of the content");
        let after = change(&before);
        assert_ne!(before, after, "{file} is changed");
        fs::write(self.file(file), after).expect("written");
        before
    }

    /// The files of a language, below the content's folder.
    pub fn files_of(&self, language: &str) -> Vec<String> {
        let folder = format!("languages/{language}");
        let entries = fs::read_dir(self.file(&folder)).expect("a language");
        let name = |entry: fs::DirEntry| entry.file_name().to_string_lossy().into_owned();
        entries
            .map(|entry| format!("{folder}/{}", name(entry.expect("an entry"))))
            .collect()
    }

    /// Leaves a language out.
    pub fn forget(&self, language: &str) {
        let folder = self.file(&format!("languages/{language}"));
        fs::remove_dir_all(folder).expect("a language");
    }
}

impl Default for ContentFolder {
    fn default() -> Self {
        Self::new()
    }
}

fn copy(from: &Path, to: &Path) {
    if from.is_file() {
        fs::copy(from, to).expect("copied");
        return;
    }
    fs::create_dir_all(to).expect("a folder");
    for entry in fs::read_dir(from).expect("a folder") {
        let name = entry.expect("an entry").file_name();
        copy(&from.join(&name), &to.join(&name));
    }
}
