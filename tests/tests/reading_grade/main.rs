//! How hard the English instructions are to read, by the grade of Kincaid, Fishburne, Rogers and Chissom (1975),
//! "Derivation of new readability formulas for Navy enlisted personnel", Research Branch Report 8-75:
//! 0.39 × words a sentence + 11.8 × syllables a word − 15.59.
//!
//! Counted over what one page says, as the formula is meant for whole texts; and for single sentences with a wider bound,
//! so that none can hide among the others.

#![cfg(test)]

use std::collections::{BTreeMap, BTreeSet};

use content::Content;
use serde_json::json;
use shared_types::{
    care_plan::{Person, Practice, own::Beside},
    visit::{Finding, Findings, Treatment, Visit},
    words::Words,
    zones::Zones,
};
use studio::advice::{Advice, For, House};
use tests::python::ask;
use uuid::Uuid;

/// Of a page, and of the emergency card: the project's own promise.
const PAGE: f64 = 6.0;
const EMERGENCY: f64 = 5.0;
/// Of a single sentence: our own choice.
const SENTENCE: f64 = 11.0;

/// Syllables by word.
struct Syllables(BTreeMap<String, f64>);

impl Syllables {
    fn of(texts: &[String]) -> Self {
        let all: BTreeSet<String> = texts.iter().flat_map(|text| words(text)).collect();
        let words: Vec<&String> = all.iter().filter(|word| !is_number(word)).collect();
        let answer = ask(include_str!("syllables.py"), &json!(words).to_string());
        let counted = answer.as_object().expect("counts").iter();
        Self(
            counted
                .map(|(word, count)| (word.clone(), count.as_f64().expect("a count")))
                .collect(),
        )
    }

    /// A number counts one for each of its digits.
    fn count(&self, word: &str) -> f64 {
        if is_number(word) {
            return word.len() as f64;
        }
        self.0[word]
    }

    fn grade(&self, sentences: &[String]) -> f64 {
        let words: Vec<String> = sentences.iter().flat_map(|one| words(one)).collect();
        let syllables: f64 = words.iter().map(|word| self.count(word)).sum();
        let count = words.len() as f64;
        0.39 * count / sentences.len() as f64 + 11.8 * syllables / count - 15.59
    }
}

fn is_number(word: &str) -> bool {
    word.chars().all(|one| one.is_ascii_digit())
}

/// Words in small letters; an apostrophe belongs to its word, a hyphen parts two.
fn words(text: &str) -> Vec<String> {
    let plain = text.to_lowercase().replace('’', "'");
    plain
        .split(|one: char| !one.is_alphanumeric() && one != '\'')
        .map(|word| word.trim_matches('\''))
        .filter(|word| !word.is_empty())
        .map(str::to_owned)
        .collect()
}

/// The sentences of texts; a text without a stop at its end is one, too.
fn sentences(texts: &[String]) -> Vec<String> {
    let parts = texts
        .iter()
        .flat_map(|text| text.split_inclusive(['.', '!', '?', '…']));
    parts
        .map(|one| one.trim().to_owned())
        .filter(|one| !words(one).is_empty())
        .collect()
}

fn english() -> Words {
    let content = Content::built_in().expect("content without mistakes");
    content.languages["en"].clone()
}

/// A text as it reads with something in its gaps.
fn filled(text: &str) -> String {
    let with = [
        ("area", "your brows"),
        ("n", "2"),
        ("number", "112"),
        ("when", "Thursday 14:30"),
        ("left", "21 hours"),
        ("time", "6 hours"),
        ("rinse_minutes", "20"),
        ("cool_minutes", "20"),
        ("ordinary_hours", "48"),
        ("report_days", "21"),
    ];
    let text = with.iter().fold(text.to_owned(), |text, (name, value)| {
        text.replace(&format!("{{{name}}}"), value)
    });
    let mut parts = text.split('{');
    let first = parts.next().unwrap_or_default().to_owned();
    parts.fold(first, |text, part| {
        text + "Tilda" + part.split_once('}').map_or("", |(_, rest)| rest)
    })
}

/// What the page of a visit tells to do or to leave, beside what its every page says.
fn advice(treatments: &[Treatment], findings: Findings) -> Vec<String> {
    let content = Content::built_in().expect("content without mistakes");
    let visit = Visit {
        id: Uuid::nil(),
        client: Uuid::nil(),
        finished_at: "2026-11-26T14:30:00Z".parse().expect("an instant"),
        treatments: treatments.to_vec(),
        findings,
        products: Vec::new(),
        zones: Zones::default(),
        note: String::new(),
        observations: Vec::new(),
        flags: Vec::new(),
    };
    let whose = For {
        language: "en",
        zone: chrono_tz::Tz::Europe__London,
        person: &Person::default(),
        practice: &Practice::default(),
        house: House {
            name: "Tamsel Lane Brows",
            beside: Beside::default(),
        },
        earlier_zones: &[],
    };
    let given = Advice::give(&content, &visit, whose).expect("advice");
    let advice = Advice::read(&given).expect("advice");
    let cautions = advice
        .cautions
        .into_iter()
        .flat_map(|one| [one.what, one.why]);
    let after = advice.after.into_iter().flat_map(|list| list.lines);
    cautions.chain(after).chain(advice.before_next).collect()
}

/// The instructions that stand on every page: whole sentences below `client.`, but for those of the emergency card.
fn on_every_page(words: &Words) -> Vec<String> {
    words
        .keys()
        .filter(|key| key.starts_with("client.") && !key.starts_with("client.emergency."))
        .map(|key| filled(words.say(key)))
        .filter(|text| text.ends_with(['.', '!', '?']))
        .collect()
}

fn emergency(words: &Words) -> Vec<String> {
    ["title", "breathing", "faint", "sight", "rinse", "call"]
        .iter()
        .map(|key| filled(words.say(&format!("client.emergency.{key}"))))
        .collect()
}

/// What is asked, and what is told to do, when something is not right.
fn in_trouble(words: &Words) -> Vec<String> {
    words
        .keys()
        .filter(|key| key.starts_with("urgency.ask.") || key.starts_with("urgency.advice."))
        .map(|key| filled(words.say(key)))
        .collect()
}

/// Each treatment by itself, without a finding and with all of them.
fn pages() -> Vec<(String, Vec<String>)> {
    let all = Finding::ALL
        .iter()
        .fold(Findings::default(), |all, one| all.and(*one));
    let mut pages = Vec::new();
    for treatment in Treatment::ALL {
        for (name, findings) in [("plain", Findings::default()), ("every finding", all)] {
            pages.push((
                format!("{treatment}, {name}"),
                advice(&[*treatment], findings),
            ));
        }
    }
    pages
}

#[test]
fn a_page_reads_at_grade_6_or_lower() {
    let common = on_every_page(&english());
    let pages = pages();
    let mut all = common.clone();
    all.extend(pages.iter().flat_map(|(_, texts)| texts.clone()));
    let syllables = Syllables::of(&all);
    let mut highest = f64::MIN;
    for (name, texts) in pages {
        // What is said of this visit alone, and with all that every page says.
        for texts in [texts.clone(), [common.clone(), texts].concat()] {
            let grade = syllables.grade(&sentences(&texts));
            assert!(grade <= PAGE, "{name}: grade {grade:.2}");
            highest = highest.max(grade);
        }
    }
    println!("The hardest page has grade {highest:.2} (promised: {PAGE})");
}

#[test]
fn the_emergency_card_reads_at_grade_5_or_lower() {
    let card = emergency(&english());
    let grade = Syllables::of(&card).grade(&sentences(&card));
    assert!(grade <= EMERGENCY, "grade {grade:.2}: {card:#?}");
    println!("The emergency card has grade {grade:.2} (promised: {EMERGENCY})");
}

/// A worried person reads these, so they are held to what the emergency card is held to.
#[test]
fn what_to_do_in_trouble_reads_at_grade_5_or_lower() {
    let texts = in_trouble(&english());
    let grade = Syllables::of(&texts).grade(&sentences(&texts));
    assert!(grade <= EMERGENCY, "grade {grade:.2}: {texts:#?}");
    println!("Questions and advice have grade {grade:.2} (promised: {EMERGENCY})");
}

#[test]
fn no_sentence_hides_among_easier_ones() {
    let english = english();
    let mut texts: Vec<String> = pages().into_iter().flat_map(|(_, texts)| texts).collect();
    texts.extend(on_every_page(&english));
    texts.extend(emergency(&english));
    texts.extend(in_trouble(&english));
    texts.sort_unstable();
    texts.dedup();
    let syllables = Syllables::of(&texts);
    let hard: Vec<String> = sentences(&texts)
        .into_iter()
        .filter_map(|sentence| {
            let grade = syllables.grade(std::slice::from_ref(&sentence));
            // A grade says nothing about three words.
            let long = words(&sentence).len() >= 5;
            (long && grade > SENTENCE).then(|| format!("{grade:.1}: {sentence}"))
        })
        .collect();
    assert!(hard.is_empty(), "{hard:#?}");
}

/// Two sentences counted by hand: 9 words of 9 syllables, and 4 words of 13.
#[test]
fn the_formula_is_that_of_1975() {
    let texts =
        vec!["The cat sat on the mat by the door. Readability varies considerably, 2.".to_owned()];
    let said = sentences(&texts);
    let counted = Syllables(BTreeMap::from(
        [
            ("the", 1.0),
            ("cat", 1.0),
            ("sat", 1.0),
            ("on", 1.0),
            ("mat", 1.0),
            ("by", 1.0),
            ("door", 1.0),
            ("readability", 5.0),
            ("varies", 2.0),
            ("considerably", 5.0),
        ]
        .map(|(word, count)| (word.to_owned(), count)),
    ));
    let by_hand = 0.39 * 13.0 / 2.0 + 11.8 * 22.0 / 13.0 - 15.59;
    assert!((counted.grade(&said) - by_hand).abs() < 1e-9);
    // The dictionary's own counts.
    let asked = Syllables::of(&["Breathe, varies; considerably: retinoid".to_owned()]);
    let counts = ["breathe", "varies", "considerably", "retinoid"].map(|word| asked.count(word));
    assert_eq!(counts, [1.0, 2.0, 5.0, 3.0]);
}
