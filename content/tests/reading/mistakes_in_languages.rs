//! What one language has and another has not, or says in other numbers, is told with file and line.

use crate::copy::Copy;

const SPANISH: &str = "languages/es/client.toml";

/// What is told of Spanish after one change in it.
fn after(section: &str, old: &str, new: &str) -> Vec<String> {
    let copy = Copy::of_the_shipped_content();
    let line = copy.change(SPANISH, section, old, new);
    let here = format!("{SPANISH}, line {line}: ");
    let mistakes = copy.mistakes().into_iter();
    mistakes
        .map(|mistake| {
            let told = mistake.to_string();
            told.strip_prefix(&here).map_or(told.clone(), str::to_owned)
        })
        .collect()
}

#[test]
fn a_placeholder_that_is_left_out() {
    assert_eq!(
        after("[client.head]", "{name}", "ti"),
        ["`client.head.for` has to hold `name`, as it does in `en`"]
    );
}

#[test]
fn a_placeholder_that_nothing_fills() {
    assert_eq!(
        after("[client.head]", "{name}", "{name} {nombre}"),
        ["`client.head.for` holds `nombre`, which nothing fills: `en` has it not"]
    );
}

#[test]
fn another_number() {
    assert_eq!(
        after("[client.weeks]", "100", "10"),
        ["`client.weeks.caption` says 10, but 100 in `en`"]
    );
    assert_eq!(
        after("[client.weeks]", "100", "cien"),
        ["`client.weeks.caption` says no number, but 100 in `en`"]
    );
}

#[test]
fn words_that_are_left_over() {
    let copy = Copy::of_the_shipped_content();
    copy.add(
        "languages/fr/more.toml",
        "# More.\n[client.extra]\ngreeting = \"Bonjour\"\n",
    );
    assert_eq!(
        copy.mistake(),
        "languages/fr/more.toml, line 3: `client.extra.greeting` is left over: `en` has no such words"
    );
}

#[test]
fn words_that_are_missing_in_one_language() {
    let copy = Copy::of_the_shipped_content();
    let line = copy.change(
        "languages/en/client.toml",
        "[client.offline]",
        "note",
        "note",
    );
    copy.change(
        "languages/es/client.toml",
        "[client.offline]",
        "note",
        "nota",
    );
    let told: Vec<String> = copy.mistakes().iter().map(ToString::to_string).collect();
    assert!(
        told.contains(&format!(
            "languages/es: the words `client.offline.note` are missing; languages/en/client.toml, line {line}, has them"
        )),
        "{told:#?}"
    );
    assert_eq!(told.len(), 2, "and `nota` is left over: {told:#?}");
}
