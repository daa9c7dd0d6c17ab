//! What a hand may do to a file: lose some of it, write something else, repeat or exchange lines.

use arbitrary::Arbitrary;

#[derive(Arbitrary, Debug)]
pub struct Edit {
    pub file: u8,
    pub change: Change,
}

#[derive(Arbitrary, Debug)]
pub enum Change {
    /// The file is gone.
    Remove,
    /// Something else altogether.
    Whole(Vec<u8>),
    /// Some bytes are replaced by others.
    Bytes {
        at: u16,
        gone: u8,
        by: Vec<u8>,
    },
    /// The number at this place among all numbers.
    Number {
        which: u16,
        by: Number,
    },
    /// What stands in quotes, by its place among all that does.
    Quoted {
        which: u16,
        by: String,
    },
    RemoveLine {
        which: u16,
    },
    RepeatLine {
        which: u16,
    },
    ExchangeLines {
        one: u16,
        other: u16,
    },
}

#[derive(Arbitrary, Debug)]
pub enum Number {
    Whole(i64),
    Small(i8),
    Fraction(f64),
    Text(String),
}

impl Number {
    fn text(&self) -> String {
        match self {
            Self::Whole(number) => number.to_string(),
            Self::Small(number) => number.to_string(),
            Self::Fraction(number) => format!("{number:?}"),
            Self::Text(text) => text.clone(),
        }
    }
}

impl Change {
    /// The file's bytes afterwards; `None` when it is gone.
    pub fn of(&self, bytes: Vec<u8>) -> Option<Vec<u8>> {
        Some(match self {
            Self::Remove => return None,
            Self::Whole(other) => other.clone(),
            Self::Bytes { at, gone, by } => {
                let from = usize::from(*at) % (bytes.len() + 1);
                replaced(&bytes, from, from + usize::from(*gone), by)
            }
            Self::Number { which, by } => match nth(&runs(&bytes, is_of_number), *which) {
                Some((from, until)) => replaced(&bytes, from, until, by.text().as_bytes()),
                None => bytes,
            },
            Self::Quoted { which, by } => match nth(&quoted(&bytes), *which) {
                Some((from, until)) => replaced(&bytes, from, until, by.as_bytes()),
                None => bytes,
            },
            Self::RemoveLine { which } => with_lines(&bytes, |lines| {
                lines.remove(usize::from(*which) % lines.len());
            }),
            Self::RepeatLine { which } => with_lines(&bytes, |lines| {
                let at = usize::from(*which) % lines.len();
                lines.insert(at, lines[at]);
            }),
            Self::ExchangeLines { one, other } => with_lines(&bytes, |lines| {
                let all = lines.len();
                lines.swap(usize::from(*one) % all, usize::from(*other) % all);
            }),
        })
    }
}

fn replaced(bytes: &[u8], from: usize, until: usize, by: &[u8]) -> Vec<u8> {
    [&bytes[..from], by, &bytes[until.min(bytes.len())..]].concat()
}

fn nth(places: &[(usize, usize)], which: u16) -> Option<(usize, usize)> {
    let at = usize::from(which).checked_rem(places.len())?;
    places.get(at).copied()
}

fn is_of_number(byte: u8) -> bool {
    byte.is_ascii_digit() || byte == b'.' || byte == b'-'
}

/// Runs of such bytes, as begin and end.
fn runs(bytes: &[u8], is_one: impl Fn(u8) -> bool) -> Vec<(usize, usize)> {
    let mut found = Vec::new();
    let mut begin = None;
    for (at, byte) in bytes.iter().chain([&b'\n']).enumerate() {
        match (is_one(*byte), begin) {
            (true, None) => begin = Some(at),
            (false, Some(from)) => {
                found.push((from, at));
                begin = None;
            }
            _ => {}
        }
    }
    found
}

/// What stands between quotes, without them.
fn quoted(bytes: &[u8]) -> Vec<(usize, usize)> {
    let marks: Vec<usize> = (0..bytes.len()).filter(|at| bytes[*at] == b'"').collect();
    marks
        .chunks_exact(2)
        .map(|pair| (pair[0] + 1, pair[1]))
        .collect()
}

fn with_lines(bytes: &[u8], change: impl FnOnce(&mut Vec<&[u8]>)) -> Vec<u8> {
    let mut lines: Vec<&[u8]> = bytes.split(|byte| *byte == b'\n').collect();
    change(&mut lines);
    lines.join(&b'\n')
}
