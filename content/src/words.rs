//! The files of a language made into one set of words.

use std::collections::BTreeMap;

use shared_types::words::Words;
use toml::de::{DeTable, DeValue};

use crate::{
    error::{ContentError, Mistake},
    files::Files,
    read::{line_of, not_toml},
};

/// Tables nest to dotted keys. A key in two files of one language is a mistake: nobody could say which one counts.
pub fn languages(files: &Files) -> Result<BTreeMap<String, Words>, ContentError> {
    let mut languages: BTreeMap<String, Words> = BTreeMap::new();
    let mut mistakes = Vec::new();
    for (tag, path, text) in files.languages() {
        let words = languages.entry(tag.to_owned()).or_default();
        let table = DeTable::parse(text).map_err(|error| not_toml(path, text, &error))?;
        let mut found = Vec::new();
        flatten(table.get_ref(), "", &mut found);
        for (key, value) in found {
            let fault = match value {
                None => Some(format!("`{key}` has to be a text in quotes")),
                Some(value) => (!words.insert(key.clone(), value))
                    .then(|| format!("`{key}` is already in another file of `{tag}`")),
            };
            let steps: Vec<&str> = key.split('.').collect();
            mistakes.extend(fault.map(|what| Mistake {
                file: path.to_owned(),
                line: line_of(text, &steps),
                what,
            }));
        }
    }
    if mistakes.is_empty() {
        Ok(languages)
    } else {
        Err(ContentError::Mistakes(mistakes))
    }
}

/// Every value with its dotted key; `None` for a value that is no text.
fn flatten(table: &DeTable<'_>, above: &str, found: &mut Vec<(String, Option<String>)>) {
    for (key, value) in table {
        let key = format!("{above}{}", key.get_ref());
        match value.get_ref() {
            DeValue::Table(inner) => flatten(inner, &format!("{key}."), found),
            value => found.push((key, value.as_str().map(str::to_owned))),
        }
    }
}
