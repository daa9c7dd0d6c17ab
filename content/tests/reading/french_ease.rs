//! How easy French reads, and that it says "vous".

use content::Content;
use shared_types::words::Words;

use super::ease::{self, counted};

fn french() -> Words {
    Content::built_in().unwrap().languages["fr"].clone()
}

/// The words of a text, without its marks; an elided one ("l’") counts with the next.
fn words_of(text: &str) -> impl Iterator<Item = &str> {
    text.split(|one: char| !one.is_alphabetic() && one != '’')
        .filter(|word| word.chars().any(char::is_alphabetic))
}

/// Syllables of a word: groups of vowels, less a mute e or es at the end. An é, a ï and the like open a new one. A mute
/// ending -ent is counted too, which makes a text look harder than it is. From memory.
fn syllables(word: &str) -> usize {
    let word = word.to_lowercase().replace("qu", "q").replace("gu", "g");
    let is_vowel = |one: char| "aeiouyàâäéèêëîïôöùûüœæ".contains(one);
    let mut count = 0;
    let mut before = None;
    for one in word.chars() {
        let opens = before.is_none_or(|one| !is_vowel(one) || one == 'é') || "éèêïë".contains(one);
        if is_vowel(one) && opens {
            count += 1;
        }
        before = Some(one);
    }
    let first = word.strip_suffix("es").or(word.strip_suffix('e'));
    let is_mute = first.is_some_and(|first| first.ends_with('é') || !first.ends_with(is_vowel));
    (count - usize::from(is_mute && count > 1)).max(1)
}

#[test]
fn syllables_are_counted_as_they_are_spoken() {
    for (word, count) in [
        ("l’œil", 1),
        ("peau", 1),
        ("cils", 1),
        ("que", 1),
        ("rouge", 1),
        ("langues", 1),
        ("sourcils", 2),
        ("visite", 2),
        ("brûlée", 2),
        ("confus", 2),
        ("appelez", 3),
        ("réaction", 3),
        ("rétinol", 3),
        ("pharmacien", 3),
        ("épilation", 4),
        ("respirer", 3),
        ("rehaussement", 4),
    ] {
        assert_eq!(syllables(word), count, "{word}");
    }
}

/// Ease of reading, from about 0 to 100: 207 − 1.015 × words of a sentence − 0.736 × syllables of 100 words (Kandel and
/// Moles 1958, Application de l'indice de Flesch à la langue française, from memory). 70 to 80 is "fairly easy", 80 to
/// 90 "easy".
fn ease(texts: &[&str]) -> f64 {
    let all = counted(texts, |text| words_of(text).collect(), syllables);
    207.0 - 1.015 * all.words_of_a_sentence - 73.6 * all.syllables_of_a_word
}

#[test]
fn what_a_client_reads_is_easy() {
    ease::what_a_client_reads_is_easy(&french(), ease);
    let hard = "L’administration concomitante de préparations dermatologiques contre-indique toute manipulation ultérieure.";
    assert!(ease(&[hard]) < 70.0);
}

/// Client and artist are both "vous".
#[test]
fn nobody_is_tu() {
    const TU: &[&str] = &["tu", "te", "toi", "ton", "ta", "tes", "t’es", "t’as"];
    let words = french();
    for key in words.keys() {
        let text = words.say(key).to_lowercase();
        let found = words_of(&text).find(|word| TU.contains(word));
        assert_eq!(found, None, "`{key}`: {text}");
    }
}
