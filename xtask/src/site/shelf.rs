//! The folder the server hands out: each file under a name that carries its content's digest, with its compressed
//! forms beside it.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use super::{compress, digest};
use crate::failure::Failure;
use crate::files;

/// Key (`client.js`) to path below `/pkg/` (`client.0123456789abcdef.js`).
pub type Names = BTreeMap<String, String>;

pub struct Shelf {
    /// Where the finished site lies; filled in `draft` first, so that a build that fails leaves the old site whole.
    folder: PathBuf,
    draft: PathBuf,
    names: Names,
}

impl Shelf {
    pub fn open(folder: &Path) -> Result<Self, Failure> {
        let draft = folder.with_extension("draft");
        files::empty_folder(&draft)?;
        Ok(Self {
            folder: folder.to_owned(),
            draft,
            names: Names::new(),
        })
    }

    /// Puts `bytes` under `key` with their digest before the extension, and gives that path.
    pub fn put(&mut self, key: &str, bytes: &[u8]) -> Result<String, Failure> {
        let path = hashed(key, &digest::short([bytes]));
        self.put_at(key, path.clone(), bytes)?;
        Ok(path)
    }

    /// Puts `bytes` at `path`, which must already carry a digest of them.
    pub fn put_at(&mut self, key: &str, path: String, bytes: &[u8]) -> Result<(), Failure> {
        let file = self.draft.join(&path);
        files::write(&file, bytes)?;
        compress::beside(&file, bytes, Some(&self.folder.join(&path)))?;
        self.names.insert(key.to_owned(), path);
        Ok(())
    }

    /// Puts `bytes` at a path that browsers know by heart.
    pub fn put_unhashed(&mut self, path: &str, bytes: &[u8]) -> Result<(), Failure> {
        let file = self.draft.join(path);
        files::write(&file, bytes)?;
        compress::beside(&file, bytes, None)
    }

    /// Calls what lies under `key` by `name` too.
    pub fn call(&mut self, name: &str, key: &str) {
        if let Some(path) = self.names.get(key).cloned() {
            self.names.insert(name.to_owned(), path);
        }
    }

    pub fn names(&self) -> &Names {
        &self.names
    }

    /// Writes the manifest and puts the new site in the old one's place.
    pub fn close(self, build: &str) -> Result<(), Failure> {
        let manifest = serde_json::json!({ "build": build, "files": self.names });
        files::write(
            &self.draft.join("manifest.json"),
            format!("{manifest:#}\n").as_bytes(),
        )?;
        files::remove_folder(&self.folder)?;
        files::rename(&self.draft, &self.folder)
    }
}

/// The names a manifest lists.
pub fn read_names(manifest: &str) -> Result<Names, Failure> {
    let unreadable = || Failure::Unreadable {
        path: crate::places::site().join("manifest.json"),
        what: "is not a manifest of this build's making".to_owned(),
        mend: "rm -r target/site && cargo xtask build",
    };
    let manifest: serde_json::Value = serde_json::from_str(manifest).map_err(|_| unreadable())?;
    let files = manifest
        .get("files")
        .and_then(serde_json::Value::as_object)
        .ok_or_else(unreadable)?;
    files
        .iter()
        .map(|(key, path)| Some((key.clone(), path.as_str()?.to_owned())))
        .collect::<Option<Names>>()
        .ok_or_else(unreadable)
}

/// `print/card.svg` with its digest: `print/card.0123456789abcdef.svg`.
fn hashed(key: &str, digest: &str) -> String {
    match key.rsplit_once('.') {
        Some((stem, extension)) => format!("{stem}.{digest}.{extension}"),
        None => format!("{key}.{digest}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_digest_stands_before_the_extension() {
        assert_eq!(hashed("print/card.svg", "abc"), "print/card.abc.svg");
        assert_eq!(hashed("LICENCE", "abc"), "LICENCE.abc");
    }

    #[test]
    fn a_manifest_of_another_shape_is_refused() {
        assert!(read_names(r#"{"files":{"client.js":"client.abc.js"}}"#).is_ok());
        assert!(read_names(r#"{"files":{"client.js":7}}"#).is_err());
        assert!(read_names("").is_err());
    }
}
