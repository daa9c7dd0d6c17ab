//! A case without a name: a code stands for the client, and what could name them is taken out of texts.

use sha2::{Digest, Sha256};
use uuid::Uuid;

use crate::record::clients::Client;

/// Digits in a row from which on a text is taken for a telephone number.
const DIGITS: usize = 6;
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
    names: Vec<String>,
    code: String,
}

impl Names {
    pub fn of(client: &Client) -> Self {
        Self {
            names: client
                .first_name
                .split_whitespace()
                .map(str::to_lowercase)
                .collect(),
            code: code_of(client.id),
        }
    }

    /// A text with the code for the name, and without addresses and telephone numbers.
    pub fn taken_out_of(&self, text: &str) -> String {
        let mut lines = Vec::new();
        for line in text.lines() {
            let words: Vec<String> = line.split(' ').map(|word| self.word(word)).collect();
            lines.push(without_numbers(&words.join(" ")));
        }
        lines.join("\n")
    }

    fn word(&self, word: &str) -> String {
        if word.contains('@') {
            return GONE.to_owned();
        }
        let bare: &str = word.trim_matches(|one: char| !one.is_alphanumeric());
        // "Signe's", "Signe’s"
        let stem = bare.split(['\'', '’']).next().unwrap_or(bare);
        if !stem.is_empty() && self.names.contains(&stem.to_lowercase()) {
            return word.replacen(stem, &self.code, 1);
        }
        word.to_owned()
    }
}

/// Digits with blanks and the marks of telephone numbers between them, where there are too many for a date or a batch.
fn without_numbers(text: &str) -> String {
    let mut out = String::new();
    let mut run = String::new();
    let flush = |run: &mut String, out: &mut String| {
        let digits = run.chars().filter(char::is_ascii_digit).count();
        if digits >= DIGITS {
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
        let belongs = one.is_ascii_digit()
            || one == '+'
            || (!run.is_empty() && matches!(one, ' ' | '(' | ')' | '/' | '.'));
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

#[cfg(test)]
mod tests {
    use super::*;

    fn names() -> Names {
        Names::of(&Client {
            id: Uuid::from_u128(7),
            first_name: "Anne Signe".to_owned(),
            reach: "07700 900388".to_owned(),
        })
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
    fn what_is_no_name_stays() {
        let text = "A design of 24 h, batch VW 2261, on 2.11.";
        assert_eq!(names().taken_out_of(text), text);
    }

    #[test]
    fn a_code_is_always_the_same_and_another_for_another() {
        let one = code_of(Uuid::from_u128(1));
        assert_eq!(one, code_of(Uuid::from_u128(1)));
        assert_ne!(one, code_of(Uuid::from_u128(2)));
    }
}
