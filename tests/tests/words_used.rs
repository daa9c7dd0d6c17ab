//! No words are left over that nothing says, and no words stand in the code.

#![cfg(test)]

use std::{
    collections::BTreeSet,
    fs,
    path::{Path, PathBuf},
};

use content::Content;

/// Where words are said, and where the rules and terms are that their keys are made from.
const SOURCES: [&str; 4] = [
    "shared-types/src",
    "mobile/src",
    "studio/src",
    "content/catalogue",
];

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

/// Every file below a folder.
fn files(folder: &Path, all: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            files(&path, all);
        } else {
            all.push(path);
        }
    }
}

fn sources() -> Vec<(PathBuf, String)> {
    let mut all = Vec::new();
    for source in SOURCES {
        files(&root().join(source), &mut all);
    }
    let text = |path: PathBuf| (path.clone(), fs::read_to_string(path).expect("a source"));
    all.into_iter().map(text).collect()
}

/// The texts in quotes of a source, comments left out.
fn literals(source: &str) -> Vec<String> {
    let mut all = Vec::new();
    for line in source.lines() {
        let code = line.trim_start();
        if code.starts_with("//") || code.starts_with('#') && !code.starts_with("#[") {
            continue;
        }
        let mut rest = code;
        while let Some((_, after)) = rest.split_once('"') {
            let mut text = String::new();
            let mut chars = after.char_indices();
            let mut end = after.len();
            while let Some((at, one)) = chars.next() {
                match one {
                    '\\' => text.extend(chars.next().map(|(_, escaped)| escaped)),
                    '"' => {
                        end = at + 1;
                        break;
                    }
                    one => text.push(one),
                }
            }
            all.push(text);
            rest = after.get(end..).unwrap_or_default();
        }
    }
    all
}

/// What stands for a key: the text itself, or a pattern with gaps where something is put in ("fault.{name}").
struct Said {
    whole: BTreeSet<String>,
    patterns: BTreeSet<Vec<String>>,
}

impl Said {
    fn of(sources: &[(PathBuf, String)]) -> Self {
        let mut said = Self {
            whole: BTreeSet::new(),
            patterns: BTreeSet::new(),
        };
        for (path, text) in sources {
            if path.extension().is_some_and(|end| end == "toml") {
                // Ids are keys of tables, too.
                let names = text.split(|one: char| !one.is_alphanumeric() && one != '_');
                let names = names.filter(|name| name.starts_with(char::is_alphabetic));
                said.whole.extend(names.map(str::to_owned));
                // The times that a question offers.
                let offered = text
                    .lines()
                    .filter_map(|line| line.strip_prefix("hours = ["));
                for list in offered {
                    let hours: Vec<&str> = list.trim_end_matches(']').split(", ").collect();
                    said.whole.insert(hours[0].to_owned());
                    for two in hours.windows(2) {
                        said.whole.insert(two.join("-"));
                    }
                    said.whole.insert(format!("{}-", hours[hours.len() - 1]));
                }
            }
            for literal in literals(text) {
                let parts: Vec<String> = gaps(&literal);
                if parts.len() > 1 && parts.iter().any(|part| part.contains('.')) {
                    said.patterns.insert(parts);
                }
                said.whole.insert(literal);
            }
        }
        // Numbers of weekdays and months.
        said.whole.extend((0..=12).map(|number| number.to_string()));
        said
    }

    /// Whether something says this key: in one piece, or put together of pieces that are there.
    fn says(&self, key: &str) -> bool {
        self.in_one_piece(key)
            || ["_day", "_one", ".one", ".other"]
                .into_iter()
                .filter_map(|end| key.strip_suffix(end))
                .any(|begin| self.in_one_piece(begin))
    }

    fn in_one_piece(&self, key: &str) -> bool {
        self.whole.contains(key) || self.patterns.iter().any(|parts| self.fits(parts, key))
    }

    /// Whether the key is the pattern with things in its gaps that are there by themselves.
    fn fits(&self, parts: &[String], key: &str) -> bool {
        let Some((first, rest)) = parts.split_first() else {
            return false;
        };
        let Some(after) = key.strip_prefix(first.as_str()) else {
            return false;
        };
        let Some((next, _)) = rest.split_first() else {
            return after.is_empty();
        };
        (1..=after.len())
            .filter(|at| after.is_char_boundary(*at))
            .filter(|at| after[*at..].starts_with(next.as_str()))
            .any(|at| self.whole.contains(&after[..at]) && self.fits(rest, &after[at..]))
    }
}

/// The pieces between the gaps of a pattern.
fn gaps(literal: &str) -> Vec<String> {
    let mut parts = vec![String::new()];
    let mut inside = false;
    for one in literal.chars() {
        match one {
            '{' => inside = true,
            '}' => {
                inside = false;
                parts.push(String::new());
            }
            one if !inside => parts.last_mut().expect("one").push(one),
            _ => {}
        }
    }
    parts
}

#[test]
fn nothing_is_left_over() {
    let said = Said::of(&sources());
    let content = Content::built_in().expect("content without mistakes");
    for (tag, words) in &content.languages {
        let unsaid: Vec<&str> = words.keys().filter(|key| !said.says(key)).collect();
        assert!(unsaid.is_empty(), "{tag}: nothing says {unsaid:#?}");
    }
}

/// A text that looks like a key: the name of a table of words, then more names.
fn looks_like_a_key(text: &str, tables: &BTreeSet<&str>) -> bool {
    let mut names = text.split('.');
    let of_words = names.next().is_some_and(|table| tables.contains(table));
    let file = [".css", ".js", ".wasm", ".toml", ".rs", ".json"];
    let mut rest = names.peekable();
    let name = |one: &str| {
        let plain = |letter: char| letter.is_ascii_lowercase() || letter == '_';
        !one.is_empty() && one.chars().all(plain)
    };
    of_words
        && !file.iter().any(|end| text.ends_with(end))
        && rest.peek().is_some()
        && rest.all(name)
}

#[test]
fn nothing_is_said_that_has_no_words() {
    let content = Content::built_in().expect("content without mistakes");
    let words = &content.languages["en"];
    let keys: BTreeSet<String> = words.keys().map(str::to_owned).collect();
    let tables: BTreeSet<&str> = keys
        .iter()
        .filter_map(|key| key.split('.').next())
        .collect();
    let there = |key: &str| {
        // Some are said for a number, and some are the beginning of others.
        keys.iter().any(|one| one.starts_with(key))
    };
    let mut wordless = Vec::new();
    for (path, text) in sources() {
        // The command line names fields of its input in the same way.
        let pages = !path.to_string_lossy().contains("/cli/");
        if pages && path.extension().is_some_and(|end| end == "rs") {
            let said = literals(&text).into_iter();
            let missing = said.filter(|one| looks_like_a_key(one, &tables) && !there(one));
            wordless.extend(missing.map(|key| format!("{}: {key}", path.display())));
        }
    }
    assert!(wordless.is_empty(), "no words for {wordless:#?}");
    assert!(looks_like_a_key("client.now.title", &tables) && !there("client.now.no_such_words"));
}

#[test]
fn what_nothing_says_is_found() {
    let said = Said::of(&sources());
    for key in [
        "client.now.nothing_says_this",
        "treatment.brow_painting",
        "caution.heat.when",
        "artist.link.opened_often",
        "before.no_such_rule",
        "date.weekday.13",
    ] {
        assert!(!said.says(key), "{key}");
    }
    for key in [
        "client.now.title",
        "treatment.brow_wax",
        "caution.heat.what",
        "rebook.weeks.other",
        "date.month.12",
    ] {
        assert!(said.says(key), "{key}");
    }
}

/// Where the pages are drawn.
const DRAWN: [&str; 6] = [
    "mobile/src/artist",
    "mobile/src/brow",
    "mobile/src/client",
    "mobile/src/picture",
    "mobile/src/print",
    "mobile/src/parts.rs",
];

/// Names, not words: what stands before the text says that it is for the browser.
const FOR_THE_BROWSER: [&str; 12] = [
    "class:",
    "rel:",
    "d:",
    "\"viewBox\":",
    "view_box:",
    "transform:",
    "points:",
    "accept:",
    "autocomplete:",
    "expect(",
    "aria_describedby:",
    "style:",
];

/// Pairs of classes of the style sheets that are made away from where they are put.
const CLASSES: [&str; 6] = [
    "brows coarse",
    "sheet close",
    "sheet closer",
    "sheet closest",
    "card close",
    "card closer",
];

/// Texts of a source that somebody could read: two words side by side, or one that begins with a capital letter.
fn words_in(source: &str) -> Vec<String> {
    let mut found = Vec::new();
    let tests = source.find("#[cfg(test)]\nmod").unwrap_or(source.len());
    for line in source[..tests].lines() {
        let browser = |text: &str| {
            let before = line.split(&format!("\"{text}")).next().unwrap_or_default();
            let before = before.rsplit(['{', ',']).next().unwrap_or_default();
            FOR_THE_BROWSER
                .iter()
                .any(|name| before.trim_start().starts_with(name))
        };
        for text in literals(line) {
            let bare = gaps(&text).join("0");
            let words: Vec<&str> = bare.split(' ').collect();
            let is_word = |word: &str| {
                let word = word.trim_end_matches(['.', ',', ':', '!', '?']);
                word.len() > 1 && word.chars().all(char::is_alphabetic)
            };
            let side_by_side = words
                .windows(2)
                .any(|two| two.iter().all(|one| is_word(one)));
            let capital = words.iter().any(|word| {
                is_word(word)
                    && word.starts_with(char::is_uppercase)
                    && !word.ends_with(char::is_uppercase)
            });
            if (side_by_side || capital) && !browser(&text) && !CLASSES.contains(&text.as_str()) {
                found.push(text);
            }
        }
    }
    found
}

#[test]
fn no_words_stand_in_the_code_that_draws_the_pages() {
    let mut all = Vec::new();
    for place in DRAWN {
        let place = root().join(place);
        if place.is_dir() {
            files(&place, &mut all);
        } else {
            all.push(place);
        }
    }
    assert!(all.len() > 30);
    let mut found = Vec::new();
    for path in all {
        let text = fs::read_to_string(&path).expect("a source");
        let words = words_in(&text).into_iter();
        found.extend(words.map(|words| format!("{}: {words}", path.display())));
    }
    assert!(found.is_empty(), "{found:#?}");
}

#[test]
fn words_in_code_are_found() {
    for source in [
        "p { \"Keep it dry\" }",
        "p { \"Dry\" }",
        "let text = format!(\"{n} more weeks\");",
        "button { class: \"quiet\", \"Send it now\" }",
    ] {
        assert!(!words_in(source).is_empty(), "{source}");
    }
    for source in [
        "p { class: \"two visit\", {words.say(\"client.now.title\")} }",
        "// \"Keep it dry\" is said by content.",
        "path { d: \"M 0 0 L 1 1\" }",
    ] {
        assert!(words_in(source).is_empty(), "{source}");
    }
}
