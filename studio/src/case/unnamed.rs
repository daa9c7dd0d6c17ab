//! A case without a name: a code stands for the client, and what could name them is taken out of texts.

use chrono::NaiveDate;
use icu_normalizer::DecomposingNormalizerBorrowed;
use sha2::{Digest, Sha256};
use uuid::Uuid;

use crate::record::clients::Client;

/// Digits in a row from which on a text is taken for a telephone number.
const DIGITS: usize = 6;
/// Letters from which on a name is looked for at the beginning of longer words, and taken for a name at all.
const LETTERS: (usize, usize) = (3, 2);
/// What stands for something that was taken out.
const GONE: &str = "[…]";

/// The code of a client: always the same, and nothing can be read from it outside of the studio.
pub fn code_of(client: Uuid) -> String {
    let hash = Sha256::digest(client.as_bytes());
    let start: String = hash
        .iter()
        .take(4)
        .map(|byte| format!("{byte:02X}"))
        .collect();
    format!("C-{start}")
}

/// What names a client in a text.
pub struct Names {
    /// As [`bare`] writes them.
    names: Vec<String>,
    code: String,
}

impl Names {
    pub fn of(client: &Client) -> Self {
        let names = client.first_name.split(|one| !is_of_word(one)).map(bare);
        Self {
            names: names
                .filter(|name| name.chars().count() >= LETTERS.1)
                .collect(),
            code: code_of(client.id),
        }
    }

    /// A text with the code for the name, and without addresses and telephone numbers. Rather too much is taken out than
    /// too little: whoever hands it on is asked to read it through.
    pub fn taken_out_of(&self, text: &str) -> String {
        let lines = text.lines().map(|line| {
            let parts: Vec<String> = line.split(' ').map(|part| self.part(part)).collect();
            let line = without_numbers(&parts.join(" "));
            // "Odile-Marie" and "Anne Signe" are one person.
            ["-", " "].iter().fold(line, |line, between| {
                line.replace(&format!("{0}{between}{0}", self.code), &self.code)
            })
        });
        lines.collect::<Vec<_>>().join("\n")
    }

    /// What stands between two blanks.
    fn part(&self, part: &str) -> String {
        if part.contains('@') {
            return GONE.to_owned();
        }
        let mut out = String::new();
        let mut rest = part;
        while let Some(first) = rest.chars().next() {
            let is_word = is_of_word(first);
            let end = rest
                .find(|one| is_of_word(one) != is_word)
                .unwrap_or(rest.len());
            let (run, after) = rest.split_at(end);
            out.push_str(&if is_word {
                self.word(run)
            } else {
                run.to_owned()
            });
            rest = after;
        }
        out
    }

    fn word(&self, word: &str) -> String {
        let written = bare(word);
        if self.names.contains(&written) {
            return self.code.clone();
        }
        let long = self.names.iter();
        let mut long = long.filter(|name| name.chars().count() >= LETTERS.0);
        match long.find_map(|name| written.strip_prefix(name.as_str())) {
            // "Odiles mother"
            Some("s") => format!("{}s", self.code),
            Some(_) => GONE.to_owned(),
            None => word.to_owned(),
        }
    }
}

fn is_of_word(one: char) -> bool {
    one.is_alphanumeric() || is_mark(one)
}

/// An accent that stands by itself behind its letter.
fn is_mark(one: char) -> bool {
    ('\u{300}'..='\u{36f}').contains(&one)
}

/// Small letters without accents: whoever types "Zoe" means Zoë.
fn bare(word: &str) -> String {
    let apart = DecomposingNormalizerBorrowed::new_nfd().normalize(word);
    let apart: String = apart.chars().filter(|one| !is_mark(*one)).collect();
    apart.to_lowercase()
}

/// Digits with blanks and the marks of telephone numbers between them, where there are too many for a date or a batch.
fn without_numbers(text: &str) -> String {
    let mut out = String::new();
    let mut run = String::new();
    let flush = |run: &mut String, out: &mut String| {
        let digits = run.chars().filter(char::is_ascii_digit).count();
        if digits >= DIGITS && !is_date(run) {
            out.push_str(GONE);
            // The blank behind it belongs to the next word.
            if run.ends_with(' ') {
                out.push(' ');
            }
        } else {
            out.push_str(run);
        }
        run.clear();
    };
    for one in text.chars() {
        let marks = [' ', '\u{a0}', '\u{202f}', '(', ')', '/', '.', '-', '‑', '–'];
        let belongs =
            one.is_ascii_digit() || one == '+' || (!run.is_empty() && marks.contains(&one));
        if !belongs {
            flush(&mut run, &mut out);
        }
        if belongs {
            run.push(one);
        } else {
            out.push(one);
        }
    }
    flush(&mut run, &mut out);
    out
}

/// Whether a run is one date as ISO 8601 writes it.
fn is_date(run: &str) -> bool {
    let date = run.trim_end_matches(|one: char| !one.is_ascii_digit());
    date.len() == "2026-11-02".len() && date.parse::<NaiveDate>().is_ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(first_name: &str) -> Names {
        Names::of(&Client {
            id: Uuid::from_u128(7),
            first_name: first_name.to_owned(),
            reach: "07700 900388".to_owned(),
        })
    }

    fn names() -> Names {
        of("Anne Signe")
    }

    #[test]
    fn names_addresses_and_numbers_are_taken_out() {
        let code = code_of(Uuid::from_u128(7));
        let out = names().taken_out_of(
            "Rang signe (07700 900388), wrote to anne@mail.example.\nSigne’s lid is better, 2 of 10.",
        );
        for gone in ["signe", "Signe", "anne", "900388", "07700", "@"] {
            assert!(!out.contains(gone), "{gone}: {out}");
        }
        assert!(
            out.contains(&code) && out.contains(&format!("{code}’s lid is better, 2 of 10.")),
            "{out}"
        );
        assert_eq!(out.lines().count(), 2);
    }

    #[test]
    fn a_name_is_found_in_two_parts_with_endings_and_without_accents() {
        let code = code_of(Uuid::from_u128(7));
        let odile = of("Odile-Marie");
        for (text, left) in [
            ("Odile-Marie rang.", format!("{code} rang.")),
            ("Odiles mother rang.", format!("{code}s mother rang.")),
            (
                "(ODILE/marie), marie’s",
                format!("({code}/{code}), {code}’s"),
            ),
            ("Odilette, OdileMarie", "[…], […]".to_owned()),
        ] {
            assert_eq!(odile.taken_out_of(text), left);
        }
        // As it is typed in one letter, in two, and without the accent.
        for text in ["Zoë", "Zoe\u{308}", "zoe", "ZOË"] {
            assert_eq!(of("Zoë B.").taken_out_of(text), code, "{text}");
        }
        // Two letters begin too many words, and one is in all of them.
        let al = of("Al B.");
        let text = "Also a calm lid, B. Alba’s";
        assert_eq!(al.taken_out_of(text), text);
        assert_eq!(al.taken_out_of("Al’s lid"), format!("{code}’s lid"));
    }

    #[test]
    fn a_number_is_found_however_it_is_grouped() {
        for number in [
            "020-7946-0999",
            "+44 20 7946 0999",
            "06\u{202f}12\u{202f}34\u{202f}56\u{202f}78",
            "(020) 7946/0999",
        ] {
            let out = names().taken_out_of(&format!("Rang {number}, said so."));
            assert!(!out.contains(|one: char| one.is_ascii_digit()), "{out}");
        }
    }

    #[test]
    fn what_is_no_name_stays() {
        let text = "A design of 24 h, batch VW 2261, on 2.11., seen 2026-11-02 - better; annals";
        assert_eq!(of("Annette Signe").taken_out_of(text), text);
    }

    #[test]
    fn a_code_is_always_the_same_and_another_for_another() {
        let one = code_of(Uuid::from_u128(1));
        assert_eq!(one, code_of(Uuid::from_u128(1)));
        assert_ne!(one, code_of(Uuid::from_u128(2)));
    }
}
