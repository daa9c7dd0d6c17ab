//! The sentences that the pages are expected to say, from the content that the studio is built with.

use content::Content;

/// The English sentence of a key.
pub fn say(key: &str) -> String {
    let content = Content::built_in().expect("content without mistakes");
    let sentence = content.languages["en"].say(key).to_owned();
    assert_ne!(sentence, key, "the content has no such words");
    sentence
}

/// The English sentence of a key, about brows.
pub fn say_of_brows(key: &str) -> String {
    say(key).replace("{area}", &say("your.brow"))
}
