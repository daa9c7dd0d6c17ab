//! Treated places, as a sentence names them.

use crate::{visit::Area, words::Words};

/// "your brows and your upper lip": the words `your.<area>`, each once. Upper and lower lashes are both "your lashes".
pub fn your(areas: &[Area], words: &Words) -> String {
    let mut named: Vec<String> = Vec::new();
    for area in areas {
        let name = words.say(&format!("your.{area}")).to_owned();
        if !named.contains(&name) {
            named.push(name);
        }
    }
    words.list(&named)
}
