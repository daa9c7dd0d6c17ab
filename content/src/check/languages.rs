//! What the languages have to have in common: every key, every placeholder, every number. The rest is the translator's.

use std::collections::BTreeSet;

use shared_types::words::Words;

use super::Review;
use crate::{
    Content,
    files::{Files, LANGUAGES},
    read::line_of,
};

/// What the others are compared with, as long as there is one.
const FIRST: &str = "en";

/// The language that the others are compared with, and its words.
pub fn first(content: &Content) -> Option<(&String, &Words)> {
    let first = content.languages.get_key_value(FIRST);
    first.or_else(|| content.languages.first_key_value())
}

pub fn check(content: &Content, found: &mut Review<'_>) {
    let Some((first, model)) = first(content) else {
        return;
    };
    for (tag, words) in content.languages.iter().filter(|(tag, _)| *tag != first) {
        for key in model.keys() {
            if let Some(text) = words.get(key) {
                compare(key, model.say(key), text, (first, tag), found);
            }
        }
        left_over(model, words, (first, tag), found);
    }
}

/// A key that the first language has not: nothing can be said in it there, so it is a slip of the pen or was forgotten.
fn left_over(model: &Words, words: &Words, tags: (&str, &str), found: &mut Review<'_>) {
    let (first, tag) = tags;
    for key in words.keys().filter(|key| model.get(key).is_none()) {
        let what = format!("`{key}` is left over: `{first}` has no such words");
        note(tag, key, what, found);
    }
}

fn compare(key: &str, model: &str, text: &str, tags: (&str, &str), found: &mut Review<'_>) {
    let (first, tag) = tags;
    let (here, there) = (placeholders(text), placeholders(model));
    for missing in there.difference(&here) {
        let what = format!("`{key}` has to hold `{missing}`, as it does in `{first}`");
        note(tag, key, what, found);
    }
    for strange in here.difference(&there) {
        let what = format!("`{key}` holds `{strange}`, which nothing fills: `{first}` has it not");
        note(tag, key, what, found);
    }
    let (here, there) = (numbers(text), numbers(model));
    if here != there {
        let list = |all: &[String]| match all {
            [] => "no number".to_owned(),
            all => all.join(", "),
        };
        let (here, there) = (list(&here), list(&there));
        let what = format!("`{key}` says {here}, but {there} in `{first}`");
        note(tag, key, what, found);
    }
}

/// Notes a mistake at a key of a language, whichever of its files it is in.
fn note(tag: &str, key: &str, what: String, found: &mut Review<'_>) {
    let path: Vec<&str> = key.split('.').collect();
    let file = file_of(found.files, tag, &path);
    found.note(&file, &path, what);
}

/// Where a language says the words of a key: "languages/en/client.toml, line 7".
pub fn place_of(files: &Files, tag: &str, key: &str) -> String {
    let path: Vec<&str> = key.split('.').collect();
    let file = file_of(files, tag, &path);
    match line_of(files.text(&file), &path) {
        Some(line) => format!("{file}, line {line},"),
        None => file,
    }
}

/// The file in which a key of a language is; the language's folder when it is in none.
fn file_of(files: &Files, tag: &str, path: &[&str]) -> String {
    let mut own = files.languages().filter(|(one, _, _)| *one == tag);
    let file = own.find(|(_, _, text)| has(text, path));
    file.map_or_else(
        || format!("{LANGUAGES}/{tag}"),
        |(_, file, _)| file.to_owned(),
    )
}

/// Whether a text in TOML has a value at the whole of a path.
fn has(text: &str, path: &[&str]) -> bool {
    let Ok(table) = text.parse::<toml::Table>() else {
        return false;
    };
    let Some((first, rest)) = path.split_first() else {
        return false;
    };
    let mut at = table.get(*first);
    for step in rest {
        at = at.and_then(|value| value.get(*step));
    }
    at.is_some()
}

/// The placeholders of a text, as they are written.
fn placeholders(text: &str) -> BTreeSet<&str> {
    let parts = text.split('{').skip(1);
    parts
        .filter_map(|part| part.split_once('}'))
        .map(|(name, _)| name)
        .collect()
}

/// The numbers of a text, smallest first. What stands in a placeholder's name is none.
fn numbers(text: &str) -> Vec<String> {
    let mut outside = String::new();
    let mut depth = 0_usize;
    for one in text.chars() {
        match one {
            '{' => depth += 1,
            '}' => depth = depth.saturating_sub(1),
            _ if depth == 0 => outside.push(one),
            _ => {}
        }
    }
    let digits = outside.split(|one: char| !one.is_ascii_digit());
    let mut all: Vec<String> = digits
        .filter(|n| !n.is_empty())
        .map(str::to_owned)
        .collect();
    all.sort_unstable();
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn placeholders_and_numbers_are_found() {
        let text = "{n} of 24 hours, {what2} by 14:30, not {n}";
        assert_eq!(placeholders(text), BTreeSet::from(["n", "what2"]));
        assert_eq!(numbers(text), ["14", "24", "30"]);
    }
}
