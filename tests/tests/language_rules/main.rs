//! Dates, times, lists and plurals of every language, beside what the Unicode CLDR says of it (through Babel 2.18, which
//! carries its data).

#![cfg(test)]

use chrono::{Days, NaiveDate};
use content::Content;
use serde_json::{Value, json};
use shared_types::{dates, words::Words};
use tests::python::ask;

/// The CLDR's name of a language of ours: English is written as in Britain.
fn locale(tag: &str) -> &str {
    if tag == "en" { "en_GB" } else { tag }
}

/// Every language, its words, and what the CLDR says of it.
fn languages() -> Vec<(String, Words, Value)> {
    let content = Content::built_in().expect("content without mistakes");
    let locales: Vec<&str> = content.languages.keys().map(|tag| locale(tag)).collect();
    let said = ask(include_str!("cldr.py"), &json!(locales).to_string());
    let all: Vec<_> = content
        .languages
        .into_iter()
        .map(|(tag, words)| {
            let rules = said[locale(&tag)].clone();
            (tag, words, rules)
        })
        .collect();
    assert!(all.len() >= 3, "English, Spanish, French");
    all
}

fn text(value: &Value) -> &str {
    value.as_str().expect("a text")
}

#[test]
fn weekdays_and_months_are_spelt_as_in_the_cldr() {
    for (tag, words, rules) in languages() {
        for (kind, many) in [("weekday", 7), ("month", 12)] {
            for number in 1..=many {
                let ours = words.say(&format!("date.{kind}.{number}")).to_owned();
                assert_eq!(ours, text(&rules[kind][number - 1]), "{tag}");
            }
        }
    }
}

/// The CLDR's full date, but for its comma after the weekday: ours stand in the middle of a sentence, behind an article
/// in Spanish and French ("el jueves 3 de diciembre"), where none is written; in English too they follow "until" or "on".
/// (The British full date had no comma in earlier versions of the CLDR; from memory.)
#[test]
fn dates_have_their_parts_in_the_order_of_the_cldr() {
    for (tag, words, rules) in languages() {
        let theirs = text(&rules["full_date"]).replace(',', "");
        let ours = words.say("date.date_year").replace(',', "");
        assert_eq!(ours, theirs, "{tag}");
        // The others are the same with less or more.
        let short = words.say("date.date");
        assert!(words.say("date.date_year").starts_with(short), "{tag}");
        let clock = "{hour}:{minute}";
        for (key, day) in [
            ("date.day_time", "{weekday}"),
            ("date.date_time", short),
            ("date.date_time_year", words.say("date.date_year")),
        ] {
            let pattern = words.say(key);
            let between = pattern
                .strip_prefix(day)
                .and_then(|rest| rest.strip_suffix(clock));
            // Between day and time: nothing, the CLDR's ", ", or its "à" for a time at which something is.
            assert!(
                [Some(" "), Some(", "), Some(" à ")].contains(&between),
                "{tag}, {key}: {pattern}"
            );
        }
    }
}

/// Times are on the clock of 24 hours in all of them, with a colon. (Spanish writes 9:05 in the CLDR; ours has two digits
/// everywhere, so that times stand in line.)
#[test]
fn times_are_on_the_clock_that_the_cldr_prefers() {
    for (tag, _, rules) in languages() {
        assert!(
            ["{hour}:{minute}", "{short_hour}:{minute}"].contains(&text(&rules["short_time"])),
            "{tag}: {rules}"
        );
    }
}

#[test]
fn a_list_ends_as_in_the_cldr() {
    let items = |n: usize| -> Vec<String> { (0..n).map(|at| format!("<{at}>")).collect() };
    for (tag, words, rules) in languages() {
        for (n, list) in (2..=4).zip(rules["lists"].as_array().expect("lists")) {
            assert_eq!(words.list(&items(n)), text(list), "{tag}");
        }
    }
}

/// Which of the two forms a count takes. (Above 200 no page counts; the CLDR's `many` of Spanish and French begins at a
/// million.)
#[test]
fn counts_take_the_singular_when_the_cldr_says_one() {
    for (tag, words, rules) in languages() {
        let mut taken = 0;
        for (n, category) in (0..).zip(rules["plurals"].as_array().expect("plurals")) {
            let form = match text(category) {
                "one" => "one",
                "other" => "other",
                strange => panic!("{tag}: {n} is {strange}"),
            };
            let number = n.to_string();
            let wanted = words.fill(&format!("rebook.weeks.{form}"), &[("n", &number)]);
            assert_eq!(words.count("rebook.weeks", n), wanted, "{tag}");
            taken += 1;
        }
        assert_eq!(taken, 201);
    }
}

/// What is written for a whole year of days is what Babel writes, but for that comma and the French "1er", which the CLDR
/// leaves to usage (Imprimerie nationale, Lexique des règles typographiques, from memory).
#[test]
fn every_day_of_a_year_is_written_as_babel_writes_it() {
    let begin: NaiveDate = "2028-01-01".parse().expect("a date");
    for (tag, words, rules) in languages() {
        let written = rules["year_2028"].as_array().expect("days");
        assert_eq!(written.len(), 366);
        for (day, theirs) in (0..).zip(written) {
            let on = begin.checked_add_days(Days::new(day)).expect("a date");
            let ours = dates::date(&words, on, begin - Days::new(400));
            let ours = ours.replace(',', "").replace(" 1er ", " 1 ");
            assert_eq!(ours, text(theirs).replace(',', ""), "{tag}");
        }
    }
}
