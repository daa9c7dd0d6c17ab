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

/// HSE Ireland, signs that need an ambulance, and NHS, hives (reference, section 2.1): somebody who has the sign has to find it
/// in the words. Stems, from memory.
#[test]
fn every_sign_of_danger_that_the_sources_name_is_in_the_words() {
    let named: [(&str, &str, &[&str]); 9] = [
        (
            "en",
            "systemic",
            &[
                "feel sick",
                "throw up",
                "stomach",
                "dizzy",
                "heart",
                "worst",
            ],
        ),
        (
            "es",
            "systemic",
            &[
                "vomito",
                "ganas de vomitar",
                "tripa",
                "mareo",
                "corazón",
                "peor",
            ],
        ),
        (
            "fr",
            "systemic",
            &[
                "vomis",
                "envie de vomir",
                "ventre",
                "tête me tourne",
                "cœur",
                "pire",
            ],
        ),
        (
            "en",
            "airway",
            &["breathe", "swallow", "noisy", "hoarse", "throat"],
        ),
        (
            "es",
            "airway",
            &["respirar", "tragar", "ruido", "ronca", "garganta"],
        ),
        (
            "fr",
            "airway",
            &["respirer", "avaler", "bruit", "rauque", "gorge"],
        ),
        (
            "en",
            "collapse",
            &["faint", "muddled", "sleepy", "blue", "grey"],
        ),
        (
            "es",
            "collapse",
            &["desmayo", "confundo", "sueño", "azules", "grises"],
        ),
        (
            "fr",
            "collapse",
            &["partir", "confus", "sommeil", "bleues", "grises"],
        ),
    ];
    for (language, sign, stems) in named {
        let key = format!("urgency.sign.{sign}");
        let said = CONTENT.languages[language].say(&key).to_lowercase();
        for stem in stems {
            assert!(
                said.contains(stem),
                "{language} {sign}: no `{stem}` in {said}"
            );
        }
    }
}

/// Reference, section 1.3: where hair was taken out small bumps are ordinary for 48 hours. Whoever is asked for a rash is told
/// so, in each language with that number; a rash is still asked for by its spots and bumps.
#[test]
fn small_bumps_of_the_ordinary_are_set_apart_from_a_rash() {
    for (language, bumps) in [("en", "bumps"), ("es", "granitos"), ("fr", "boutons")] {
        let words = &CONTENT.languages[language];
        let more = words.get("urgency.more.skin").unwrap();
        assert!(more.contains(bumps), "{language}: {more}");
        assert_eq!(placeholders(more), ["ordinary_hours"].into(), "{language}");
        let rash = words.say("urgency.sign.rash").to_lowercase();
        assert!(rash.contains(bumps), "{language}: {rash}");
    }
}

/// Usual first aid, from memory: whoever may see badly, faint or get worse does not drive, and water that washes something off
/// a face stays out of the eyes.
#[test]
fn whoever_has_to_go_does_not_drive_and_keeps_water_out_of_the_eyes() {
    for (language, drive, eyes) in [
        ("en", "Do not drive", "out of your eyes"),
        ("es", "No conduzcas", "en los ojos"),
        ("fr", "Ne conduisez pas", "vos yeux"),
    ] {
        let words = &CONTENT.languages[language];
        let go = words.say("urgency.advice.go_now");
        assert!(go.contains(drive), "{language}: {go}");
        let cool = words.say("urgency.advice.cool");
        assert!(cool.contains(eyes), "{language}: {cool}");
    }
}

/// What a client is told at home counts for as long as the page is read: twelve days later as well.
#[test]
fn what_is_ordinary_has_an_end_at_any_time() {
    for (language, later) in [
        ("en", "or later"),
        ("es", "o más tarde"),
        ("fr", "ou plus tard"),
    ] {
        let said = CONTENT.languages[language].say("urgency.advice.ordinary");
        assert!(said.contains(later), "{language}: {said}");
    }
}
