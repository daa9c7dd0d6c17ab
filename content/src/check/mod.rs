//! What the types cannot rule out: numbers that do not fit together, sources and words that are not there.

mod after;
mod concerns;
mod figures;
mod flags;
mod languages;
mod patch_test;
mod regions;
mod treatments;
mod urgency;
mod words;

use crate::{
    Content,
    error::Mistake,
    files::{Files, TREATMENTS},
    read::line_of,
};

pub use regions::OTHER as OTHER_REGION;

/// Every mistake in the content, file by file.
pub fn mistakes(content: &Content, files: &Files) -> Vec<Mistake> {
    let mut found = Review {
        files,
        mistakes: Vec::new(),
    };
    treatments::check(&content.catalogue, &mut found);
    after::check(&content.catalogue, &mut found);
    concerns::check(content, &mut found);
    patch_test::check(&content.catalogue, &mut found);
    figures::check(&content.catalogue, &mut found);
    flags::check(&content.catalogue, &mut found);
    urgency::check(&content.catalogue, &mut found);
    regions::check(content, &mut found);
    words::check(content, &mut found);
    languages::check(content, &mut found);
    found.mistakes
}

/// Collects mistakes with their lines.
pub struct Review<'a> {
    files: &'a Files,
    mistakes: Vec<Mistake>,
}

impl Review<'_> {
    /// Notes a mistake in `file` at the value that `path` leads to.
    pub fn note(&mut self, file: &str, path: &[&str], what: String) {
        let line = line_of(self.files.text(file), path);
        self.mistakes.push(Mistake {
            file: file.to_owned(),
            line,
            what,
        });
    }

    /// Notes a mistake in the entry of a treatment, whichever file it is in: `path` begins with the treatment.
    pub fn note_treatment(&mut self, path: &[&str], what: String) {
        let file = self.file_of(path);
        self.note(&file, path, what);
    }

    /// The file of treatments in which the first step of `path` is; the folder when it is in none.
    pub fn file_of(&self, path: &[&str]) -> String {
        let first = path.first().copied().unwrap_or_default();
        let heads = [
            format!("[{first}]"),
            format!("[{first}."),
            format!("[[{first}."),
        ];
        let holds = |text: &str| {
            let mut lines = text.lines();
            lines.any(|line| heads.iter().any(|head| line.starts_with(head.as_str())))
        };
        let found = self.files.treatments().find(|(_, text)| holds(text));
        found.map_or(TREATMENTS, |(file, _)| file).to_owned()
    }

    /// Notes what is missing from a whole file or folder.
    pub fn missing(&mut self, file: &str, what: String) {
        self.mistakes.push(Mistake {
            file: file.to_owned(),
            line: None,
            what,
        });
    }
}
