//! The line of links to the page in its other languages, at the top of what the server alone draws. The skip link stays
//! the first thing on the page.

use super::document::escaped;
use crate::state::Studio;

/// Each language in its own name; nothing when there is only one.
pub fn links(studio: &Studio, path: &str, shown: &str, languages: &[String]) -> String {
    if languages.len() < 2 {
        return String::new();
    }
    let one = |tag: &String| {
        let name = escaped(studio.language_name(tag));
        let is_shown = tag == shown;
        let (tag, path) = (escaped(tag), escaped(path));
        if is_shown {
            format!("<span lang=\"{tag}\" aria-current=\"true\">{name}</span>")
        } else {
            format!(
                "<a href=\"{path}/in/{tag}\" lang=\"{tag}\" hreflang=\"{tag}\" rel=\"nofollow\">{name}</a>"
            )
        }
    };
    let label = studio.words(shown).1.say("language.choose");
    let links: String = languages.iter().map(one).collect();
    format!(
        "<nav class=\"languages\" aria-label=\"{}\">{links}</nav>",
        escaped(label)
    )
}
