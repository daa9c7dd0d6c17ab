//! The sentences: nothing in them that pages cannot fill, easy to read, and short where it is an emergency.

use std::collections::BTreeSet;

use crate::support::CONTENT;

const NUMBER: &[(&str, &str)] = &[
    ("{number}", "112"),
    ("{studio}", "the studio"),
    ("{rinse_minutes}", "20"),
    ("{cool_minutes}", "20"),
    ("{ordinary_hours}", "48"),
    ("{report_days}", "21"),
];

fn placeholders(text: &str) -> BTreeSet<&str> {
    let after = text.split('{').skip(1);
    after.filter_map(|rest| rest.split('}').next()).collect()
}

fn keys() -> Vec<&'static str> {
    let keys = CONTENT.languages["en"].keys();
    keys.filter(|key| key.starts_with("urgency.")).collect()
}

#[test]
fn every_placeholder_is_one_that_pages_fill() {
    for key in keys() {
        for name in placeholders(CONTENT.languages["en"].say(key)) {
            let known = NUMBER
                .iter()
                .any(|(known, _)| known[1..known.len() - 1] == *name);
            assert!(known, "`{key}`: {name}");
        }
    }
}

fn filled(key: &str) -> String {
    let text = CONTENT.languages["en"].say(key).to_owned();
    NUMBER
        .iter()
        .fold(text, |text, (name, value)| text.replace(name, value))
}

/// Groups of vowels, without a silent e at the end; at least one.
fn syllables(word: &str) -> usize {
    let word = word.to_lowercase();
    let word: Vec<char> = word.chars().filter(|one| one.is_alphabetic()).collect();
    let vowel = |one: &char| "aeiouy".contains(*one);
    let mut groups = 0;
    for (at, one) in word.iter().enumerate() {
        if vowel(one) && (at == 0 || !vowel(&word[at - 1])) {
            groups += 1;
        }
    }
    let silent = word.len() > 2
        && word[word.len() - 1] == 'e'
        && !vowel(&word[word.len() - 2])
        && word[word.len() - 2] != 'l';
    (groups - usize::from(silent && groups > 1)).max(1)
}

/// Flesch-Kincaid grade: 0.39 words per sentence + 11.8 syllables per word - 15.59 (Kincaid et al. 1975, from memory).
fn grade(text: &str) -> f64 {
    let sentences = text.matches(['.', '?', '!', ':']).count().max(1);
    let words: Vec<&str> = text.split_whitespace().collect();
    let spoken: usize = words.iter().map(|word| syllables(word)).sum();
    0.39 * words.len() as f64 / sentences as f64 + 11.8 * spoken as f64 / words.len() as f64 - 15.59
}

/// Kincaid's scale: a sentence of ten words of one syllable is below the first grade, a long-winded one far above.
#[test]
fn grades_tell_hard_from_easy() {
    assert!(grade("The cat sat on the mat and had a rest.") < 1.0);
    assert!(grade("Immediate professional ophthalmological evaluation is recommended.") > 12.0);
}

/// Single labels ("Emergency department") are too short to have a grade: the instructions are read as one text per kind.
#[test]
fn instructions_read_at_grade_six_and_emergencies_at_five() {
    let together = |prefix: &str| {
        let texts: Vec<String> = keys()
            .iter()
            .filter(|key| key.starts_with(prefix))
            .map(|key| {
                let text = filled(key);
                if text.ends_with(['.', '?']) {
                    text
                } else {
                    text + "."
                }
            })
            .collect();
        texts.join(" ")
    };
    for prefix in ["urgency.advice.", "urgency.ask.", "urgency.sign."] {
        let grade = grade(&together(prefix));
        assert!(grade <= 6.0, "{prefix}: {grade}");
    }
    for key in keys()
        .iter()
        .filter(|key| key.starts_with("urgency.advice."))
    {
        let grade = grade(&filled(key));
        assert!(grade <= 6.0, "{key}: {grade}");
    }
    for id in [
        "call_now",
        "while_you_wait",
        "rinse",
        "then_call",
        "cool",
        "go_now",
        "worse",
    ] {
        let text = filled(&format!("urgency.advice.{id}"));
        let grade = grade(&text);
        assert!(grade <= 5.0, "{id}: {grade}: {text}");
    }
}

/// At most sixty words (reference, section 8), so that it is read in a glance.
#[test]
fn what_an_emergency_is_told_is_short() {
    use crate::support::{RULES, makes, nothing};
    use shared_types::urgency::{Level, judge};
    for rule in RULES
        .rules
        .iter()
        .filter(|rule| rule.level == Level::Emergency)
    {
        for row in &rule.when {
            let answers = row.iter().fold(nothing(1), makes);
            let told = judge(&RULES, &answers).advice;
            let words: usize = told
                .iter()
                .map(|id| {
                    filled(&format!("urgency.advice.{id}"))
                        .split_whitespace()
                        .count()
                })
                .sum();
            assert!(words <= 60, "{}: {words} words: {told:?}", rule.id);
        }
    }
}
