//! A language that nobody speaks, whose words are 40 % longer than English: what has room for it has room for the next
//! language, too. (How much longer a translation gets: common practice, no source.)

use anyhow::ensure;
use tests::{
    browser::{Outcome, SMALL_PHONE},
    content_folder::ContentFolder,
    words::languages,
};

use crate::{
    accessibility::{TOO_WIDE, found},
    pages::Gallery,
    scene::{phone, seats},
};

#[tokio::test(flavor = "multi_thread")]
async fn words_that_are_longer_break_no_page() -> Outcome {
    let _seats = seats(1).await;
    let folder = ContentFolder::new();
    for tag in languages().iter().filter(|tag| *tag != "en") {
        folder.forget(tag);
    }
    for file in folder.files_of("en") {
        folder.rewrite(&file, longer_file);
    }
    let gallery = Gallery::open_with(&["--content", folder.option()]).await?;
    let browser = phone(true).await?;
    browser.set_screen(SMALL_PHONE).await?;
    let mut faults = Vec::new();
    for page in &gallery.pages {
        page.open(&browser).await?;
        let text = browser.text().await?;
        ensure!(text.contains('é'), "{} is in plain English", page.name);
        faults.extend(found(&browser, page, "40 % longer, 320 wide", TOO_WIDE).await?);
    }
    let told = faults.join("\n");
    ensure!(faults.is_empty(), "{} faults:\n{told}", faults.len());
    Ok(())
}

/// A file of words with every text in quotes made longer, but for those that are no words.
fn longer_file(text: &str) -> String {
    let line = |line: &str| match line.split_once(" = \"") {
        Some((key, value)) if key != "zero_is_one" => {
            let value = value.strip_suffix('"').unwrap_or(value);
            format!("{key} = \"{}\"", longer(value))
        }
        _ => line.to_owned(),
    };
    text.lines().map(|one| line(one) + "\n").collect()
}

/// Vowels are doubled until the text is 40 % longer; where that is not enough, its last word grows. Placeholders and
/// numbers stay.
fn longer(text: &str) -> String {
    let mut more = (bare(text) * 2).div_ceil(5);
    let mut inside = false;
    let mut out = String::new();
    let mut last_word_ends = None;
    for one in text.chars() {
        inside = (inside || one == '{') && one != '}';
        let one = if one == 'e' && !inside { 'é' } else { one };
        out.push(one);
        if inside || !one.is_alphabetic() {
            continue;
        }
        if more > 0 && "aéiouyAEIOUY".contains(one) {
            out.push(one);
            more -= 1;
        }
        last_word_ends = Some(out.len());
    }
    if let Some(end) = last_word_ends {
        out.insert_str(end, &"é".repeat(more));
    }
    out
}

/// Characters of a text without its placeholders.
fn bare(text: &str) -> usize {
    let outside = text.split(['{', '}']).step_by(2);
    outside.map(|part| part.chars().count()).sum()
}

#[test]
fn it_is_longer_by_two_fifths() {
    for text in [
        "Keep it dry.",
        "Until {when}",
        "Come back between {from} and {until}.",
        "Now",
    ] {
        let (before, after) = (bare(text), bare(&longer(text)));
        assert!(after >= before + before * 2 / 5, "{}", longer(text));
    }
    assert_eq!(longer("{name}"), "{name}");
    let unchanged = "zero_is_one = \"no\"\n";
    assert_eq!(longer_file(unchanged), unchanged);
}
