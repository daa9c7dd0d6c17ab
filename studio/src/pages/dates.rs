//! The section of the client's dates, drawn once: it does not move, so the phone takes it as it is.

use dioxus::prelude::VirtualDom;
use mobile::client::dates::{Dates, DatesInside, DatesInsideProps};
use shared_types::words::Words;

/// The inside of the section, as HTML. `path` is that of the client's page.
pub fn html(dates: Dates, words: &Words, path: &str) -> String {
    let inside = DatesInsideProps {
        dates,
        words: words.only(&["dates."]),
        path: path.to_owned(),
    };
    let mut part = VirtualDom::new_with_props(DatesInside, inside);
    part.rebuild_in_place();
    dioxus_ssr::render(&part)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_typed_stays_where_it_was_typed() {
        let dates = Dates {
            typed: "\"><script>alert(1)</script>".to_owned(),
            fault: Some("<b>No</b>".to_owned()),
            ..Dates::default()
        };
        let html = html(dates, &Words::none(), "/MY/SECRET");
        assert!(!html.contains("<script") && !html.contains("<b>"), "{html}");
        assert!(html.contains("action=\"/MY/SECRET/occasion\""), "{html}");
        assert!(!html.contains("<!--"), "no marks of the browser's: {html}");
    }
}
