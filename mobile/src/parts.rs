//! Small parts that the client's page and the artist's screens share. What neither remembers nor listens is a plain
//! function: each component more is a kilobyte more to download.

use dioxus::prelude::*;
use shared_types::page::client::{CautionCard, Moment};

/// The sentence that stands beside a field which needs mending; the field points at it by `fault-NAME`.
pub fn fault_text(field: &str, sentence: Option<String>) -> Element {
    rsx! {
        if let Some(sentence) = sentence {
            p { class: "fault", id: "fault-{field}", "{sentence}" }
        }
    }
}

/// The text that a `textarea` begins with, as HTML for `dangerous_inner_html`.
///
/// A text node in there would carry the marks by which the browser finds it again, and a text area would show them;
/// and its `value` is no attribute, so it would be empty without JavaScript.
pub fn text_area_text(text: &str) -> String {
    // The parser drops one line break at the very start of a text area.
    let first = if text.starts_with('\n') { "\n" } else { "" };
    format!(
        "{first}{}",
        text.replace('&', "&amp;")
            .replace('<', "&lt;")
            .replace('>', "&gt;")
    )
}

/// The cautions that end at the same instant.
pub struct EndingTogether<'a> {
    pub until: &'a Moment,
    pub cards: Vec<&'a CautionCard>,
}

/// Cautions by end, in the order given (the server sorts by end).
pub fn by_end(cautions: &[CautionCard]) -> Vec<EndingTogether<'_>> {
    let mut groups: Vec<EndingTogether<'_>> = Vec::new();
    for card in cautions {
        match groups.last_mut() {
            Some(group) if group.until.at == card.until.at => group.cards.push(card),
            _ => groups.push(EndingTogether {
                until: &card.until,
                cards: vec![card],
            }),
        }
    }
    groups
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_text_cannot_leave_its_text_area() {
        assert_eq!(
            text_area_text("a </textarea> & b"),
            "a &lt;/textarea&gt; &amp; b"
        );
        assert_eq!(text_area_text("\nx"), "\n\nx");
    }
}
