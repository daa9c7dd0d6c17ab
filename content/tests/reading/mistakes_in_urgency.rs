//! Every kind of mistake in how soon to act is told with file, line and what is wrong.

use crate::copy::Copy;

const URGENCY: &str = "catalogue/urgency.toml";

/// Makes one change and checks the one mistake that is told for it, at its own line.
fn told(section: &str, old: &str, new: &str, what: &str) {
    let copy = Copy::of_the_shipped_content();
    let line = copy.change(URGENCY, section, old, new);
    assert_eq!(copy.mistake(), format!("{URGENCY}, line {line}: {what}"));
}

/// The same for something that is missing from the file.
fn missing(section: &str, old: &str, new: &str, what: &str) {
    let copy = Copy::in_english();
    copy.change(URGENCY, section, old, new);
    let mistakes: Vec<String> = copy.mistakes().iter().map(ToString::to_string).collect();
    assert!(
        mistakes.contains(&format!("{URGENCY}: {what}")),
        "{mistakes:#?}"
    );
}

#[test]
fn facts_that_mean_nothing() {
    let rule = "id = \"S2\"";
    let fact = "[\"swelling from lids\"]";
    told(
        rule,
        fact,
        "[\"swelling from chin\"]",
        "`swelling` has no `chin`; allowed is one of none, local, lids, face, shut, not_sure",
    );
    told(
        rule,
        fact,
        "[\"swelling beyond lids\"]",
        "`swelling beyond lids` is no fact; write a field, alone or with `is`, `from`, `over`, `within` or `maybe`",
    );
    let copy = Copy::of_the_shipped_content();
    let line = copy.change(URGENCY, rule, fact, "[\"swollen\"]");
    let told = copy.mistake();
    assert!(
        told.starts_with(&format!(
            "{URGENCY}, line {line}: `swollen` is not known; allowed are "
        )),
        "{told}"
    );
    let late = "id = \"T13\"";
    told_hours(late, "sting_hours\"", "sting_minutes\"", "sting_minutes");
    // A limit that is no time.
    told_hours(late, "sting_hours\"", "itch_to_tell\"", "itch_to_tell");
}

fn told_hours(section: &str, old: &str, new: &str, name: &str) {
    let copy = Copy::of_the_shipped_content();
    copy.change(URGENCY, section, old, new);
    let what = format!(
        "`hours_since_visit` has no `{name}`; allowed is hours from 0 to 87600, or not_sure"
    );
    assert!(copy.mistake().ends_with(&what), "{}", copy.mistake());
}

#[test]
fn a_rule_without_a_fact_would_always_hold() {
    let what = "a rule without a fact would always hold; name at least one";
    told("id = \"E2\"", "[[\"collapse\"]]", "[[]]", what);
}

#[test]
fn an_id_twice() {
    let what = |id| format!("`{id}` is there already; give each its own name");
    told("id = \"E2\"", "\"E2\"", "\"E1\"", &what("E1"));
    told(
        "id = \"eye_look\"",
        "\"eye_look\"",
        "\"sight\"",
        &what("sight"),
    );
}

#[test]
fn sources_that_are_missing_or_unknown() {
    let line = "id = \"E8\"";
    told(
        line,
        "[\"nhs_hot_swollen_skin\"]",
        "[]",
        "name at least one source",
    );
    let unknown =
        "the source `hearsay` is not in catalogue/sources.toml; add it there or correct the name";
    told(line, "[\"nhs_hot_swollen_skin\"]", "[\"hearsay\"]", unknown);
    told(
        "id = \"call_now\"",
        "[\"nhs_swelling\", \"hse_emergency_signs\"]",
        "[\"hearsay\"]",
        unknown,
    );
    told("rinse_minutes", "\"nhs_eye_rinse\"", "\"hearsay\"", unknown);
}

#[test]
fn advice_that_is_not_there() {
    let what = "the advice `dial` is not among those of this file";
    told(
        "id = \"E2\"",
        "[\"call_now\", \"while_you_wait\", \"stop_product\"]",
        "[\"dial\"]",
        what,
    );
    told("id = \"then_call\"", "[\"call_now\"]", "[\"dial\"]", what);
    told(
        "[levels]",
        "[\"today\", \"tell_studio\"",
        "[\"dial\", \"tell_studio\"",
        what,
    );
    missing(
        "[levels]",
        "studio = [\"tell_studio\", \"worse\", \"no_diagnosis\"]\n",
        "",
        "the level `studio` advises nothing",
    );
}

#[test]
fn levels_that_raise_nothing() {
    told(
        "id = \"T3\"",
        "\"studio\"",
        "\"expected\"",
        "`expected` raises nothing; leave the rule out",
    );
    told(
        "id = \"M1\"",
        "\"same_day\"",
        "\"studio\"",
        "`studio` is no higher than `studio`, which it raises",
    );
}

#[test]
fn limits_outside_their_range_broken_or_missing() {
    told(
        "rinse_minutes",
        "value = 20",
        "value = 10",
        "10 is outside its range of 15 to 20",
    );
    told(
        "rinse_minutes",
        "value = 20",
        "value = 15.5",
        "given 15.5; allowed is a whole number",
    );
    told(
        "cool_minutes",
        "\"min\"",
        "\"h\"",
        "the unit is `h`; here it has to be `min`",
    );
    let copy = Copy::of_the_shipped_content();
    copy.change(URGENCY, "[limits]", "cool_minutes ", "cooling_minutes ");
    assert_eq!(
        copy.mistake(),
        format!("{URGENCY}: the limit `cool_minutes` is missing; a sentence names it")
    );
}

#[test]
fn what_nobody_knows_would_pass_for_ordinary() {
    let what = "no rule has `unknown = true`; what nobody knows would pass for ordinary";
    missing("id = \"T10\"", "unknown = true\n", "", what);
}

#[test]
fn questions_that_cannot_be_asked() {
    for (section, old, new, field) in [
        (
            "id = \"trend\"",
            "[\"trend\"]",
            "[\"trend\", \"eye_red\"]",
            "trend",
        ),
        (
            "id = \"onset\"",
            "[\"onset_hours\"]",
            "[\"onset_hours\", \"rash\"]",
            "onset_hours",
        ),
    ] {
        // The words of the new kind of question are missing as well.
        let copy = Copy::in_english();
        let line = copy.change(URGENCY, section, old, new);
        let what = format!("`{field}` has other answers than yes and no; ask it alone");
        let first = copy.mistakes()[0].to_string();
        assert_eq!(first, format!("{URGENCY}, line {line}: {what}"));
    }
    missing(
        "id = \"burn\"\nfields",
        "[\"burn\"]",
        "[\"rash\"]",
        "`burn` decides a rule and no question asks for it",
    );
}

#[test]
fn a_typing_error_in_a_name() {
    let copy = Copy::of_the_shipped_content();
    let line = copy.change(URGENCY, "id = \"E1\"", "advice", "advise");
    let told = copy.mistake();
    assert!(
        told.starts_with(&format!("{URGENCY}, line {line}: unknown field `advise`")),
        "{told}"
    );
}

#[test]
fn words_that_are_missing() {
    let english = "languages/en/urgency.toml";
    for (line, key) in [
        (
            "call_now = \"Call {number} now.\"\n",
            "urgency.advice.call_now",
        ),
        (
            "eye_look = \"What does the eye look like?\"\n",
            "urgency.ask.eye_look",
        ),
        (
            "double_vision = \"I see double\"\n",
            "urgency.sign.double_vision",
        ),
        ("lids = \"My eyelids\"\n", "urgency.swelling.lids"),
        ("4 = \"Very much\"\n", "urgency.redness.4"),
        (
            "same_day = \"Get medical help today\"\n",
            "urgency.level.same_day",
        ),
        ("not_sure = \"Not sure\"\n", "urgency.answer.not_sure"),
    ] {
        let copy = Copy::in_english();
        copy.change(english, "[urgency", line, "");
        assert_eq!(
            copy.mistake(),
            format!("languages/en: the words `{key}` are missing")
        );
    }
}
