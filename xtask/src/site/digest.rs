//! Digests of content: in file names, as the build's id, and to know that nothing changed.

use std::env;
use std::path::PathBuf;

use sha2::{Digest, Sha256};

use super::compile::Compiled;
use crate::failure::Failure;
use crate::files;
use crate::places;

/// The first 64 bits of a SHA-256 over `parts`, in hex: enough that two files of one site never share a name.
pub fn short<'a>(parts: impl IntoIterator<Item = &'a [u8]>) -> String {
    let mut hasher = Sha256::new();
    for part in parts {
        // The length keeps ("ab", "c") apart from ("a", "bc").
        hasher.update((part.len() as u64).to_le_bytes());
        hasher.update(part);
    }
    hasher
        .finalize()
        .iter()
        .take(8)
        .map(|byte| format!("{byte:02x}"))
        .collect()
}

/// What the site was last made from.
pub struct Stamp {
    inputs: String,
    file: PathBuf,
}

impl Stamp {
    /// A digest of everything that decides what the site becomes: wasm, assets, the bundler, and this program.
    pub fn of(entries: &[Compiled], bundled: &str) -> Result<Self, Failure> {
        let mut parts = vec![bundled.as_bytes().to_vec()];
        for entry in entries {
            parts.push(files::read(&entry.wasm)?);
        }
        for name in files::list(&places::assets())? {
            parts.push(name.to_string_lossy().as_bytes().to_vec());
            parts.push(files::read(&places::assets().join(name))?);
        }
        if let Ok(ourselves) = env::current_exe() {
            parts.push(files::read(&ourselves)?);
        }
        Ok(Self {
            inputs: short(parts.iter().map(Vec::as_slice)),
            file: places::target().join("site.stamp"),
        })
    }

    /// The id of the build that lies there, where it was made from just this.
    pub fn matches(&self) -> Result<Option<String>, Failure> {
        if !self.file.is_file() || !places::site().join("manifest.json").is_file() {
            return Ok(None);
        }
        let kept = files::read_text(&self.file)?;
        Ok(kept
            .split_once(' ')
            .filter(|(inputs, _)| *inputs == self.inputs)
            .map(|(_, build)| build.to_owned()))
    }

    pub fn keep(&self, build: &str) -> Result<(), Failure> {
        files::write(&self.file, format!("{} {build}", self.inputs).as_bytes())
    }
}
