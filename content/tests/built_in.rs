//! The content that is shipped.

use content::Content;

#[test]
fn the_built_in_content_has_no_mistakes() {
    if let Err(error) = Content::built_in() {
        panic!("{error}");
    }
}
