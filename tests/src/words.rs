//! The sentences that the pages are expected to say, from the content that the studio is built with.

use content::Content;

/// The English sentence of a key.
pub fn say(key: &str) -> String {
    say_in("en", key)
}

/// The sentence of a key in a language.
pub fn say_in(language: &str, key: &str) -> String {
    let content = Content::built_in().expect("content without mistakes");
    let sentence = content.languages[language].say(key).to_owned();
    assert_ne!(sentence, key, "the content has no such words");
    sentence
}

/// The English sentence of a key, about brows.
pub fn say_of_brows(key: &str) -> String {
    say(key).replace("{area}", &say("your.brow"))
}

/// Every language of the content, by tag.
pub fn languages() -> Vec<String> {
    let content = Content::built_in().expect("content without mistakes");
    content.languages.into_keys().collect()
}
