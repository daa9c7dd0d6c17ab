//! Everything a build is made of, read once.

use std::collections::BTreeMap;

use super::compile::Compiled;
use super::digest;
use super::glue::{self, Glue};
use crate::failure::Failure;
use crate::files;
use crate::places;

pub struct Sources {
    pub entries: Vec<Entry>,
    /// `assets/styles`, by path below it: each sheet with those that it shares before it.
    pub styles: BTreeMap<String, Vec<u8>>,
    /// The service worker's template.
    pub worker: String,
    /// What is served as it is, by path below `assets`.
    pub other: BTreeMap<String, Vec<u8>>,
    /// The template of the script that starts an entry.
    boot: String,
}

pub struct Entry {
    pub name: &'static str,
    pub wasm: Vec<u8>,
    /// The script that starts it, still without the build's id and the wasm's name.
    pub boot: String,
    pub glue: Glue,
    /// The glue's scripts, by path below its folder.
    pub scripts: BTreeMap<String, Vec<u8>>,
}

impl Sources {
    pub fn gather(compiled: Vec<Compiled>) -> Result<Self, Failure> {
        let boot = files::read_text(&places::assets().join("boot.js"))?;
        let mut sources = Self {
            entries: Vec::new(),
            styles: BTreeMap::new(),
            worker: files::read_text(&places::assets().join("worker.js"))?,
            other: BTreeMap::new(),
            boot,
        };
        for path in files::list(&places::assets())? {
            let name = path.to_string_lossy().into_owned();
            let bytes = files::read(&places::assets().join(&path))?;
            match name.strip_prefix("styles/") {
                Some(style) => drop(sources.styles.insert(style.to_owned(), bytes)),
                None if name == "boot.js" || name == "worker.js" => {}
                None => drop(sources.other.insert(name, bytes)),
            }
        }
        sources.share("parts.css", &["artist.css", "client/below.css"]);
        sources.share("base.css", &["artist.css", "client.css"]);
        for Compiled { name, wasm } in compiled {
            sources
                .entries
                .push(Entry::read(name, glue::write(name, &wasm)?, &sources.boot)?);
        }
        Ok(sources)
    }

    /// Puts a sheet before those that share it, in place of handing it out by itself.
    fn share(&mut self, shared: &str, with: &[&str]) {
        let rules = self.styles.remove(shared).unwrap_or_default();
        for name in with {
            if let Some(sheet) = self.styles.get_mut(*name) {
                sheet.splice(0..0, rules.iter().copied());
            }
        }
    }

    /// A digest over all of it and over how it is `bundled`. It must be known before any script is written, because
    /// the scripts carry it.
    pub fn build_id(&self, bundled: &str) -> String {
        let mut parts: Vec<&[u8]> = vec![
            bundled.as_bytes(),
            self.boot.as_bytes(),
            self.worker.as_bytes(),
        ];
        for entry in &self.entries {
            parts.push(&entry.wasm);
            parts.extend(named(&entry.scripts));
        }
        parts.extend(named(&self.styles));
        parts.extend(named(&self.other));
        digest::short(parts)
    }
}

impl Entry {
    fn read(name: &'static str, glue: Glue, boot: &str) -> Result<Self, Failure> {
        let mut scripts = BTreeMap::new();
        for path in &glue.scripts {
            scripts.insert(
                path.to_string_lossy().into_owned(),
                files::read(&glue.folder.join(path))?,
            );
        }
        Ok(Self {
            name,
            wasm: files::read(&glue.wasm)?,
            boot: boot.replace("__ENTRY__", name),
            glue,
            scripts,
        })
    }
}

fn named(files: &BTreeMap<String, Vec<u8>>) -> impl Iterator<Item = &[u8]> {
    files
        .iter()
        .flat_map(|(name, bytes)| [name.as_bytes(), bytes.as_slice()])
}
