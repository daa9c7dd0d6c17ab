//! Mistakes in the figures for batches are told with file, line and what is wrong.

use crate::copy::Copy;

const BATCHES: &str = "catalogue/batches.toml";

fn told(section: &str, old: &str, new: &str, what: &str) {
    let copy = Copy::of_the_shipped_content();
    let line = copy.change(BATCHES, section, old, new);
    assert_eq!(copy.mistake(), format!("{BATCHES}, line {line}: {what}"));
}

#[test]
fn figures_with_which_nothing_is_meant() {
    let aside = "set_aside_below";
    told(
        aside,
        "value = 0.01",
        "value = 0.02",
        "0.02 is outside its range of 0.001 to 0.01",
    );
    told(
        aside,
        "value = 0.01, unit = \"1\", low = 0.001, high = 0.01",
        "value = 0.06, unit = \"1\", low = 0.001, high = 0.06",
        "allowed is more than 0, at most `look_below`",
    );
    told(
        "interval",
        "value = 0.95, unit = \"1\", low = 0.9, high = 0.99",
        "value = 1, unit = \"1\", low = 0.9, high = 1",
        "allowed is more than 0, less than 1",
    );
    told(
        "many_times",
        "\"1\"",
        "\"d\"",
        "the unit is `d`; here it has to be `1`",
    );
    let unknown =
        "the source `hearsay` is not in catalogue/sources.toml; add it there or correct the name";
    told("many_times", "\"evans_2001\"", "\"hearsay\"", unknown);
}

#[test]
fn words_that_are_missing() {
    let copy = Copy::in_english();
    copy.change(
        "languages/en/batches.toml",
        "[batches.verdict]",
        "look = \"Worth a look.\"\n",
        "",
    );
    assert_eq!(
        copy.mistake(),
        "languages/en: the words `batches.verdict.look` are missing"
    );
}
