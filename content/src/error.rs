//! What can be wrong with content, said so that whoever edits the files can mend it.

use std::{fmt, io, path::PathBuf};

#[derive(Debug, thiserror::Error)]
pub enum ContentError {
    #[error("{} cannot be read: {cause}", path.display())]
    Unreadable { path: PathBuf, cause: io::Error },
    #[error("{}", lines(.0))]
    Mistakes(Vec<Mistake>),
}

impl From<Mistake> for ContentError {
    fn from(mistake: Mistake) -> Self {
        Self::Mistakes(vec![mistake])
    }
}

/// One thing to mend.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mistake {
    /// Below the content folder, with `/`.
    pub file: String,
    /// From 1; `None` when something is missing from the whole file or folder.
    pub line: Option<usize>,
    pub what: String,
}

impl fmt::Display for Mistake {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.line {
            Some(line) => write!(f, "{}, line {line}: {}", self.file, self.what),
            None => write!(f, "{}: {}", self.file, self.what),
        }
    }
}

fn lines(mistakes: &[Mistake]) -> String {
    mistakes
        .iter()
        .map(ToString::to_string)
        .collect::<Vec<_>>()
        .join("\n")
}
