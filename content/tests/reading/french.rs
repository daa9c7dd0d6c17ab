//! What French asks of its texts beyond what every language has to hold.

use content::Content;
use shared_types::words::Words;

const NO_BREAK_SPACE: char = '\u{a0}';
const NARROW_NO_BREAK_SPACE: char = '\u{202f}';

fn french() -> Words {
    Content::built_in().unwrap().languages["fr"].clone()
}

/// What is wrong with the spaces of a text. A narrow no-break space before `;`, `!` and `?`, a no-break space before `:`
/// and inside guillemets, a curved apostrophe (Imprimerie nationale, Lexique des règles typographiques, from memory).
fn misprints(text: &str) -> Vec<String> {
    let chars: Vec<char> = text.chars().collect();
    let mut found = Vec::new();
    for (at, one) in chars.iter().enumerate() {
        let before = at.checked_sub(1).map(|at| chars[at]);
        let after = chars.get(at + 1).copied();
        let fits = match one {
            ';' | '!' | '?' => before == Some(NARROW_NO_BREAK_SPACE),
            // Between hours and minutes stands none.
            ':' => {
                before == Some(NO_BREAK_SPACE)
                    || (matches!(before, Some('}' | '0'..='9'))
                        && matches!(after, Some('{' | '0'..='9')))
            }
            '«' => after == Some(NO_BREAK_SPACE),
            '»' => before == Some(NO_BREAK_SPACE),
            '\'' | '"' | '“' | '”' => false,
            _ => true,
        };
        if !fits {
            found.push(format!("{one} at {at}"));
        }
    }
    found
}

#[test]
fn spaces_and_apostrophes_as_french_prints_them() {
    let words = french();
    for key in words.keys() {
        let found = misprints(words.say(key));
        assert!(found.is_empty(), "`{key}`: {found:?}: {}", words.say(key));
    }
}

#[test]
fn misprints_are_found() {
    for text in [
        "Quand ?",
        "Quand\u{a0}?",
        "Quand?",
        "Appelez : vite",
        "Fin: 18:30",
        "« Oui »",
        "l'œil",
        "“Oui”",
    ] {
        assert!(!misprints(text).is_empty(), "{text}");
    }
    let right = "Fin\u{a0}: {hour}:{minute}, 18:30\u{202f}! «\u{a0}l’œil\u{a0}»";
    assert_eq!(misprints(right), Vec::<String>::new());
}

/// `your.<area>` stands behind any preposition: "le" and "les" would have to become "au", "du", "aux" or "des" there.
#[test]
fn no_treated_place_begins_with_an_article_that_merges() {
    let words = french();
    for key in words.keys().filter(|key| key.starts_with("your.")) {
        let first = words.say(key).split(' ').next();
        assert!(!matches!(first, Some("le" | "les")), "`{key}`");
    }
}

/// A name may begin with a vowel or with "Le": behind "de" or "à" it would have to change. Buttons keep "à", as a name
/// on a sign is left alone there.
#[test]
fn no_name_stands_behind_de() {
    let words = french();
    for key in words.keys() {
        let text = words.say(key);
        for place in [
            "studio",
            "name",
            "artist",
            "by",
            "who",
            "treatment",
            "treatments",
            "done",
            "area",
        ] {
            for before in ["de", "d’", "du"] {
                let wrong = format!(" {before} {{{place}}}");
                assert!(!text.contains(&wrong), "`{key}`: {text}");
            }
        }
    }
}
