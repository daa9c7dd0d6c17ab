//! Nobody is told the name of a condition: that would be a diagnosis. In no word of any language, whoever reads it; the
//! addresses of sources excepted. The lists are also used for the pages as they are drawn (`tests/tests/http_no_condition.rs`).

use content::Content;

use crate::copy::Copy;

const ENGLISH: &str = include_str!("conditions/en.txt");
const SPANISH: &str = include_str!("conditions/es.txt");
const FRENCH: &str = include_str!("conditions/fr.txt");

/// What the consultation found. In the forecast it is told by its effect, never by its name. Stems, from memory.
const FOUND: [&str; 16] = [
    "alopecia",
    "cancer",
    "chemo",
    "pregnan",
    "thyroid",
    "disease", //
    "cáncer",
    "quimio",
    "embaraz",
    "tiroid",
    "enfermedad", //
    "alopécie",
    "chimio",
    "enceinte",
    "grossesse",
    "maladie",
];

/// What the artist looks for before a treatment, and asks about, has its everyday name on the artist's screen alone.
const ON_THE_ARTISTS_SCREEN: [(&str, &[&str]); 3] = [
    ("concern.", &["cold sore", "bouton de fièvre"]),
    ("finding.", &["cold sore", "bouton de fièvre"]),
    ("flag.", &["alopecia", "pelade"]),
];

/// The stems of a list. A language that has none of its own has English's.
fn stems(language: &str) -> Vec<&'static str> {
    let list = match language {
        "es" => SPANISH,
        "fr" => FRENCH,
        _ => ENGLISH,
    };
    let lines = list.lines().filter(|line| !line.starts_with('#'));
    lines.filter(|line| !line.is_empty()).collect()
}

/// A text as it is compared: without addresses, in small letters.
fn read(text: &str) -> String {
    let words = text.split_whitespace();
    let words = words.filter(|word| !word.contains("://"));
    words.collect::<Vec<_>>().join(" ").to_lowercase() + " "
}

fn begins_a_word(stem: &str, text: &str) -> bool {
    let mut found = text.match_indices(stem);
    found.any(|(at, _)| !text[..at].ends_with(char::is_alphabetic))
}

fn is_the_artists(key: &str, stem: &str) -> bool {
    let mut known = ON_THE_ARTISTS_SCREEN.iter();
    known.any(|(keys, stems)| key.starts_with(keys) && stems.contains(&stem))
}

/// Each text that names something, by language and key.
fn named(content: &Content) -> Vec<String> {
    let mut named = Vec::new();
    for (tag, words) in &content.languages {
        for key in words.keys() {
            let text = read(words.say(key));
            let of_forecast = key.starts_with("forecast").then_some(FOUND);
            let all = stems(tag)
                .into_iter()
                .chain(of_forecast.into_iter().flatten());
            named.extend(
                all.filter(|stem| begins_a_word(stem, &text) && !is_the_artists(key, stem))
                    .map(|stem| format!("{tag}: `{key}` names `{stem}`: {text}")),
            );
        }
    }
    named
}

#[test]
fn no_word_of_any_language_names_a_condition() {
    let content = Content::built_in().unwrap();
    assert_eq!(named(&content), Vec::<String>::new());
}

/// The check finds each name that is put in, inflected, in whatever key and language.
#[test]
fn a_name_that_is_put_in_is_found() {
    for (file, section, old, new) in [
        ("en/client.toml", "", "= \"", "= \"An Allergic reaction. "),
        (
            "en/urgency.toml",
            "[urgency.advice]",
            "= \"",
            "= \"Infected skin. ",
        ),
        (
            "es/urgency.toml",
            "[urgency.advice]",
            "= \"",
            "= \"Una dermatitis. ",
        ),
        (
            "fr/urgency.toml",
            "[urgency.advice]",
            "= \"",
            "= \"De l’eczéma. ",
        ),
        ("fr/patch_test.toml", "", "= \"", "= \"Des infections. "),
        (
            "en/catalogue.toml",
            "[forecast]",
            "= \"",
            "= \"Chemotherapy. ",
        ),
    ] {
        let copy = Copy::of_the_shipped_content();
        copy.change(&format!("languages/{file}"), section, old, new);
        let content = copy.read().unwrap();
        assert_eq!(named(&content).len(), 1, "{file}: {:#?}", named(&content));
    }
}

#[test]
fn addresses_are_no_words() {
    assert_eq!(read("See https://nhs.example/eczema Now"), "see now ");
}
