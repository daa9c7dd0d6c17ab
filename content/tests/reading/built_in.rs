//! The content that is shipped.

use crate::copy::Copy;
use content::Content;
use shared_types::visit::Treatment;

#[test]
fn the_built_in_content_has_no_mistakes_and_is_that_of_the_folder() {
    let built_in = match Content::built_in() {
        Ok(content) => content,
        Err(error) => panic!("{error}"),
    };
    assert_eq!(Copy::of_the_shipped_content().read().unwrap(), built_in);
}

#[test]
fn changed_words_change_the_version() {
    let copy = Copy::of_the_shipped_content();
    copy.change(
        "languages/en/catalogue.toml",
        "[area]",
        "\"Chin\"",
        "\"The chin\"",
    );
    let (changed, shipped) = (copy.read().unwrap(), Content::built_in().unwrap());
    assert_eq!(changed.catalogue.version, shipped.catalogue.version);
    assert_ne!(changed.version, shipped.version);
}

#[test]
fn every_treatment_of_the_trade_is_offered() {
    let content = Content::built_in().unwrap();
    let offered: Vec<Treatment> = content.catalogue.treatments.keys().copied().collect();
    assert_eq!(offered, Treatment::ALL);
}

/// 112 in the European Union (European Commission), 999 in the United Kingdom (St John Ambulance), 911 in the United
/// States (general references).
#[test]
fn emergency_numbers() {
    let content = Content::built_in().unwrap();
    for (region, text, dial) in [
        ("eu", "112", "112"),
        ("uk", "999", "999"),
        ("us", "911", "911"),
        ("other", "112 or your local emergency number", "112"),
        ("atlantis", "112 or your local emergency number", "112"),
    ] {
        let number = content.emergency(region, "en").unwrap();
        assert_eq!((number.text.as_str(), number.dial.as_str()), (text, dial));
    }
    assert_eq!(content.emergency("uk", "tlh"), None);
}
