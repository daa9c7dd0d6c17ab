//! Small parts that the client's page and the artist's screens share.

use dioxus::prelude::*;

/// The sentence that stands beside a field which needs mending; the field points at it by `fault-NAME`.
#[component]
pub fn FaultText(field: String, sentence: Option<String>) -> Element {
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
