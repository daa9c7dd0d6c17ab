//! What the formulas for ease of reading count, whatever the language.

use shared_types::words::Words;

/// What a client reads, by the beginnings of its keys, and how easy it has to be at least.
const CLIENT: &[(&str, f64)] = &[
    ("client.emergency.", 80.0),
    ("before.", 70.0),
    ("caution.", 70.0),
    ("client.", 70.0),
    ("forecast_flag.", 70.0),
    ("not_ordinary.", 70.0),
    ("occasion.", 70.0),
    ("ordinary.", 70.0),
    ("patch_test.", 70.0),
    ("tip.", 70.0),
    ("window.", 70.0),
    ("zones_told.", 70.0),
];

/// Averages over some texts.
pub struct Counted {
    pub words_of_a_sentence: f64,
    pub syllables_of_a_word: f64,
}

/// Counts by how a language parts its words and speaks its syllables.
pub fn counted(
    texts: &[&str],
    words_of: impl Fn(&str) -> Vec<&str>,
    syllables: impl Fn(&str) -> usize,
) -> Counted {
    let text = texts.join(". ");
    let sentences = text.split(['.', '?', '!', ':', ';']);
    let sentences = sentences.filter(|one| !words_of(one).is_empty()).count();
    let words = words_of(&text);
    let spoken: usize = words.iter().map(|word| syllables(word)).sum();
    Counted {
        words_of_a_sentence: words.len() as f64 / sentences as f64,
        syllables_of_a_word: spoken as f64 / words.len() as f64,
    }
}

pub fn what_a_client_reads_is_easy(words: &Words, ease: impl Fn(&[&str]) -> f64) {
    for (prefix, least) in CLIENT {
        let texts = words.keys().filter(|key| key.starts_with(prefix));
        let texts: Vec<&str> = texts.map(|key| words.say(key)).collect();
        let ease = ease(&texts);
        assert!(ease >= *least, "{prefix} {ease:.0}");
    }
}
