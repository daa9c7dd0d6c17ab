//! TOML into the types of `shared-types`, with the line of whatever does not fit.

use std::collections::BTreeMap;

use serde::{Deserialize, de::DeserializeOwned};
use shared_types::{
    catalogue::{Catalogue, concern::ConcernRule, source::Region, treatment::TreatmentEntry},
    visit::Treatment,
};
use toml::de::{DeTable, DeValue};

use crate::{
    error::Mistake,
    files::{self, Files},
};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Declared {
    version: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Concerns {
    concerns: Vec<ConcernRule>,
}

pub fn version(files: &Files) -> Result<String, Mistake> {
    parse::<Declared>(files, files::VERSION).map(|declared| declared.version)
}

pub fn catalogue(files: &Files, version: String) -> Result<Catalogue, Mistake> {
    Ok(Catalogue {
        version,
        treatments: treatments(files)?,
        after: parse(files, files::AFTER)?,
        concerns: parse::<Concerns>(files, files::CONSULTATION)?.concerns,
        patch_test: parse(files, files::PATCH_TEST)?,
        hair: parse(files, files::HAIR)?,
        clock: parse(files, files::CLOCK)?,
        flags: parse(files, files::FLAGS)?,
        rebook: parse(files, files::REBOOK)?,
        zones: parse(files, files::ZONES)?,
        picture: parse(files, files::PICTURE)?,
        urgency: parse(files, files::URGENCY)?,
        batches: parse(files, files::BATCHES)?,
        sources: parse(files, files::SOURCES)?,
    })
}

/// The treatments of all files. One in two files is a mistake: nobody could say which entry counts.
fn treatments(files: &Files) -> Result<BTreeMap<Treatment, TreatmentEntry>, Mistake> {
    let mut all = BTreeMap::new();
    for (path, text) in files.treatments() {
        let some: BTreeMap<Treatment, TreatmentEntry> = parse(files, path)?;
        for (treatment, entry) in some {
            if all.insert(treatment, entry).is_some() {
                return Err(Mistake {
                    file: path.to_owned(),
                    line: line_of(text, &[treatment.term()]),
                    what: format!("`{treatment}` is already in another file of treatments"),
                });
            }
        }
    }
    Ok(all)
}

pub fn regions(files: &Files) -> Result<BTreeMap<String, Region>, Mistake> {
    parse(files, files::REGIONS)
}

fn parse<T: DeserializeOwned>(files: &Files, file: &str) -> Result<T, Mistake> {
    let text = files.text(file);
    toml::from_str(text).map_err(|error| not_toml(file, text, &error))
}

pub fn not_toml(file: &str, text: &str, error: &toml::de::Error) -> Mistake {
    Mistake {
        file: file.to_owned(),
        line: error.span().map(|span| line_at(text, span.start)),
        what: error.message().to_owned(),
    }
}

/// The line of the value at a path of keys and indices ("brow_wax", "cautions", "2"), or of as much of the path as
/// there is.
pub fn line_of(text: &str, path: &[&str]) -> Option<usize> {
    let document = DeTable::parse(text).ok()?;
    let (first, rest) = path.split_first()?;
    let mut at = document.get_ref().get(*first)?;
    let mut start = at.span().start;
    for step in rest {
        let next = match at.get_ref() {
            DeValue::Table(table) => table.get(*step),
            DeValue::Array(array) => step
                .parse::<usize>()
                .ok()
                .and_then(|index| array.get(index)),
            _ => None,
        };
        let Some(next) = next else { break };
        at = next;
        start = at.span().start;
    }
    Some(line_at(text, start))
}

/// From 1.
fn line_at(text: &str, byte: usize) -> usize {
    text.bytes()
        .take(byte)
        .filter(|byte| *byte == b'\n')
        .count()
        + 1
}
