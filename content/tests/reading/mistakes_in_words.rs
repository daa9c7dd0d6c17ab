//! Words that are missing, double or unfit are told, with the key and where to put it.

use crate::copy::Copy;

const ENGLISH: &str = "languages/en/catalogue.toml";

#[test]
fn missing_words() {
    for (section, line, key) in [
        (
            "[treatment]",
            "brow_tint = \"brow tint\"\n",
            "treatment.brow_tint",
        ),
        (
            "[finding]",
            "sensitive = \"Skin that reacts easily\"\n",
            "finding.sensitive",
        ),
        (
            "[caution.heat]",
            "what = \"No sauna, steam room or hot bath\"\n",
            "caution.heat.what",
        ),
        ("[your]", "chin = \"your chin\"\n", "your.chin"),
        (
            "[caution.water]",
            "why_glue = \"Water can weaken the glue while it is still drying.\"\n",
            "caution.water.why_glue",
        ),
        ("[area]", "chin = \"Chin\"\n", "area.chin"),
        ("[emergency]", "us = \"911\"\n", "emergency.us"),
        ("[date.month]", "12 = \"December\"\n", "date.month.12"),
    ] {
        let copy = Copy::in_english();
        copy.change(ENGLISH, section, line, "");
        assert_eq!(
            copy.mistake(),
            format!("languages/en: the words `{key}` are missing")
        );
    }
}

#[test]
fn empty_words_are_missing_words() {
    let copy = Copy::in_english();
    copy.change(ENGLISH, "[area]", "\"Chin\"", "\" \"");
    assert_eq!(
        copy.mistake(),
        "languages/en: the words `area.chin` are missing"
    );
}

#[test]
fn a_sentence_for_something_new_in_the_catalogue() {
    let copy = Copy::in_english();
    copy.change(
        "catalogue/treatments/brow_hair_removal.toml",
        "calm_skin",
        "calm_skin",
        "no_peel",
    );
    assert_eq!(
        copy.mistake(),
        "languages/en: the words `before.no_peel` are missing"
    );
}

#[test]
fn a_sentence_that_leaves_out_its_number() {
    let copy = Copy::in_english();
    copy.change(
        ENGLISH,
        "[before]",
        "{n} hours before the next",
        "two days before the next",
    );
    let what =
        "languages/en: `before.patch_test` has to hold `{n}`, where the number of the rule is put";
    assert_eq!(copy.mistake(), what);
}

#[test]
fn a_key_in_two_files() {
    let copy = Copy::in_english();
    copy.add(
        "languages/en/more.toml",
        "# More.\n\n[area]\nchin = \"Chin line\"\n",
    );
    assert_eq!(
        copy.mistake(),
        "languages/en/more.toml, line 4: `area.chin` is already in another file of `en`"
    );
}

#[test]
fn a_key_twice_in_one_file() {
    let copy = Copy::in_english();
    copy.change(ENGLISH, "[area]", "chin =", "brow =");
    assert!(
        copy.mistake()
            .starts_with("languages/en/catalogue.toml, line "),
        "{}",
        copy.mistake()
    );
}

#[test]
fn a_value_that_is_no_text() {
    let copy = Copy::in_english();
    let line = copy.change(ENGLISH, "[area]", "\"Chin\"", "7");
    assert!(
        copy.mistake().ends_with(&format!(
            "line {line}: `area.chin` has to be a text in quotes"
        )),
        "{}",
        copy.mistake()
    );
}

#[test]
fn a_language_that_lacks_what_another_says() {
    let copy = Copy::in_english();
    for entry in std::fs::read_dir(copy.path("languages/en")).unwrap() {
        let file = entry.unwrap();
        let text = std::fs::read_to_string(file.path()).unwrap();
        copy.add(
            &format!("languages/cy/{}", file.file_name().display()),
            &text,
        );
    }
    copy.read().unwrap();
    copy.add(
        "languages/en/more.toml",
        "[client.extra]\ngreeting = \"Hello\"\n",
    );
    assert_eq!(
        copy.mistake(),
        "languages/cy: the words `client.extra.greeting` are missing; languages/en/more.toml, line 2, has them"
    );
}
