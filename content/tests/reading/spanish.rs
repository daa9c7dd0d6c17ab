//! What Spanish asks of its texts beyond what every language has to hold.

use content::Content;
use shared_types::words::Words;

use super::ease::{self, counted};

fn spanish() -> Words {
    Content::built_in().unwrap().languages["es"].clone()
}

/// The words of a text, without its marks.
fn words_of(text: &str) -> impl Iterator<Item = &str> {
    text.split(|one: char| !one.is_alphabetic())
        .filter(|word| !word.is_empty())
}

/// Whether a question or an exclamation is opened as well as closed, and no mark of a typewriter is used (RAE,
/// Ortografía de la lengua española, from memory).
fn is_printed_right(text: &str) -> bool {
    let count = |mark| text.matches(mark).count();
    count('¿') == count('?') && count('¡') == count('!') && !text.contains(['\'', '"', '“', '”'])
}

#[test]
fn questions_are_opened_and_closed() {
    let words = spanish();
    for key in words.keys() {
        let text = words.say(key);
        assert!(is_printed_right(text), "`{key}`: {text}");
    }
    for text in ["Qué ves?", "¿Qué ves", "“Sí”", "Vuelve!", "'no'"] {
        assert!(!is_printed_right(text), "{text}");
    }
}

/// A client is tú, an artist is usted. In `artist` stands what only an artist reads; what only a client reads is listed.
#[test]
fn clients_are_tu_and_artists_are_usted() {
    const CLIENT: &[&str] = &[
        "before.",
        "calendar.",
        "caution.",
        "client.",
        "dates.",
        "forecast",
        "not_ordinary.",
        "occasion.",
        "ordinary.",
        "patch_test.",
        "print.",
        "tip.",
        "wait.",
        "window",
        "zones_told.",
    ];
    const TU: &[&str] = &["tú", "tu", "tus", "te", "ti", "contigo"];
    const USTED: &[&str] = &["usted", "ustedes"];
    let words = spanish();
    for key in words.keys() {
        let wrong = if key.starts_with("artist.") || key.starts_with("concern.") {
            TU
        } else if CLIENT.iter().any(|one| key.starts_with(one)) {
            USTED
        } else {
            continue;
        };
        let text = words.say(key).to_lowercase();
        let found = words_of(&text).find(|word| wrong.contains(word));
        assert_eq!(found, None, "`{key}`: {text}");
    }
}

/// `your.<area>` stands behind `a` and `de`, which merge with `el` to `al` and `del`.
#[test]
fn no_treated_place_begins_with_the_article_that_merges() {
    let words = spanish();
    for key in words.keys().filter(|key| key.starts_with("your.")) {
        assert!(!words.say(key).starts_with("el "), "`{key}`");
    }
}

/// Before the sound i, `y` would have to become `e` (RAE, Diccionario panhispánico de dudas, from memory).
#[test]
fn nothing_that_a_list_may_end_with_begins_with_the_sound_i() {
    let words = spanish();
    let listed = ["treatment.", "your.", "zone.", "client.now.keep."];
    let listed = |key: &&str| listed.iter().any(|one| key.starts_with(one));
    for key in words.keys().filter(listed) {
        let name = words.say(key).to_lowercase();
        assert!(
            !["i", "í", "hi", "hí"]
                .iter()
                .any(|one| name.starts_with(one)),
            "`{key}`: {name}"
        );
    }
}

/// A moment is "jueves, 14:30": a sentence needs its article, a label or a list does not. The number of an emergency may
/// be "112 o al número de emergencias de tu zona", which stands behind `al` alone.
#[test]
fn moments_and_numbers_stand_behind_what_they_need() {
    let words = spanish();
    for key in words.keys() {
        let text = words.say(key);
        for (place, before) in [
            ("{when}", &["el ", "del ", ": ", ", "][..]),
            ("{date}", &["el ", "del ", ": "][..]),
            ("{number}", &["al "][..]),
        ] {
            if let Some((first, _)) = text.split_once(place) {
                let fits = first.is_empty() || before.iter().any(|one| first.ends_with(one));
                assert!(fits, "`{key}`: {text}");
            }
        }
    }
}

/// Syllables of a word: vowels, less those that glide into a neighbour. An `í` or `ú` does not glide, nor do two of a, e
/// and o (RAE, Ortografía de la lengua española, from memory).
fn syllables(word: &str) -> usize {
    let word = word.to_lowercase();
    // Where the u is mute, and where a y at the end is a vowel.
    let word = ["que", "qui", "qué", "quí", "gue", "gui", "gué", "guí"]
        .iter()
        .fold(word, |word, mute| {
            word.replace(mute, &mute.replacen('u', "", 1))
        });
    let word = match word.strip_suffix('y') {
        Some(first) => format!("{first}i"),
        None => word,
    };
    let is_strong = |one: char| "aeoáéóíú".contains(one);
    let is_vowel = |one: char| is_strong(one) || "iuü".contains(one);
    let parts = word.split(|one| !is_vowel(one));
    let of_part = |part: &str| match part.chars().filter(|one| is_strong(*one)).count() {
        0 => usize::from(!part.is_empty()),
        strong => strong,
    };
    parts.map(of_part).sum::<usize>().max(1)
}

#[test]
fn syllables_are_counted_as_they_are_spoken() {
    for (word, count) in [
        ("pan", 1),
        ("muy", 1),
        ("y", 1),
        ("que", 1),
        ("agua", 2),
        ("guía", 2),
        ("cejas", 2),
        ("día", 2),
        ("hueco", 2),
        ("línea", 3),
        ("leíste", 3),
        ("estudio", 3),
        ("pestañas", 3),
        ("tratamiento", 4),
        ("estilista", 4),
        ("depilación", 4),
        ("emergencia", 4),
    ] {
        assert_eq!(syllables(word), count, "{word}");
    }
}

/// Ease of reading, from about 0 to 100: 206.84 − 0.60 × syllables of 100 words − 1.02 × words of a sentence (Fernández
/// Huerta 1959, Medidas sencillas de lecturabilidad, from memory). 70 to 80 is "somewhat easy", 80 to 90 "easy".
fn ease(texts: &[&str]) -> f64 {
    let all = counted(texts, |text| words_of(text).collect(), syllables);
    206.84 - 60.0 * all.syllables_of_a_word - 1.02 * all.words_of_a_sentence
}

#[test]
fn what_a_client_reads_is_easy() {
    ease::what_a_client_reads_is_easy(&spanish(), ease);
    let hard = "La administración concomitante de procedimientos dermatológicos desaconseja manipulaciones posteriores.";
    assert!(ease(&[hard]) < 70.0);
}
