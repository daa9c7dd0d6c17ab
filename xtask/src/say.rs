//! What is told while something long goes on. It goes to standard error, so that standard output stays the
//! output of the command itself.

pub fn step(text: &str) {
    eprintln!("== {text}");
}
