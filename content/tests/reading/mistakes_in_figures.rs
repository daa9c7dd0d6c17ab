//! Every kind of mistake in treatments, figures and regions is told with file, line and what is wrong.

use crate::copy::Copy;

const BROW_HAIR: &str = "catalogue/treatments/brow_hair_removal.toml";
const BROW_COLOUR: &str = "catalogue/treatments/brow_colour_and_set.toml";
const AFTER: &str = "catalogue/after.toml";
const CONSULTATION: &str = "catalogue/consultation.toml";
const HAIR: &str = "catalogue/hair.toml";
const CLOCK: &str = "catalogue/clock.toml";
const FLAGS: &str = "catalogue/flags.toml";
const REBOOK: &str = "catalogue/rebook.toml";
const PATCH_TEST: &str = "catalogue/patch_test.toml";
const ZONES: &str = "catalogue/zones.toml";
const REGIONS: &str = "regions.toml";

/// Makes one change and checks the one mistake that is told for it.
fn told(file: &str, section: &str, old: &str, new: &str, what: &str) {
    let copy = Copy::of_the_shipped_content();
    let line = copy.change(file, section, old, new);
    assert_eq!(copy.mistake(), format!("{file}, line {line}: {what}"));
}

#[test]
fn a_source_that_is_not_there() {
    let what =
        "the source `hearsay` is not in catalogue/sources.toml; add it there or correct the name";
    let heat = "kind = \"heat\"";
    told(
        BROW_HAIR,
        heat,
        "\"common_practice\", \"cheek",
        "\"hearsay\", \"cheek",
        what,
    );
    told(
        BROW_COLOUR,
        "[brow_tint.interval]",
        "[\"common_practice\"]",
        "[\"hearsay\"]",
        what,
    );
    told(
        BROW_HAIR,
        "no_tanning",
        "\"phsa_hair_removal\"",
        "\"hearsay\"",
        what,
    );
    told(HAIR, "depth_mm", "\"richards_meharg\"", "\"hearsay\"", what);
    told(
        REBOOK,
        "visible_best",
        "\"assumption\"",
        "\"hearsay\"",
        what,
    );
    told(
        REGIONS,
        "[uk]",
        "\"st_john_ambulance\"",
        "\"hearsay\"",
        what,
    );
}

#[test]
fn no_source_at_all() {
    told(
        BROW_COLOUR,
        "kind = \"oil\"",
        "[\"common_practice\"]",
        "[]",
        "name at least one source",
    );
}

#[test]
fn hours_outside_their_range() {
    let heat = "kind = \"heat\"";
    told(
        BROW_HAIR,
        heat,
        "hours = 48",
        "hours = 49",
        "49 hours is outside the range of 24 to 48 hours",
    );
    let finding = "sensitive: 169 hours is outside the range of 48 to 168 hours";
    told(
        BROW_HAIR,
        "kind = \"actives\"",
        "sensitive = 168",
        "sensitive = 169",
        finding,
    );
}

#[test]
fn ranges_that_run_backwards() {
    let hours = "the range runs from 49 down to 48 hours; exchange `least_hours` and `most_hours`";
    told(
        BROW_HAIR,
        "kind = \"heat\"",
        "least_hours = 24",
        "least_hours = 49",
        hours,
    );
    let figure = "the range runs from 9 down to 2.5; exchange `low` and `high`";
    told(HAIR, "depth_mm", "low = 2.0", "low = 9", figure);
    let days = "the days 60, 28, 42 have to rise from earliest over best to latest";
    told(
        BROW_HAIR,
        "[brow_wax.interval]",
        "earliest_days = 21",
        "earliest_days = 60",
        days,
    );
}

#[test]
fn a_figure_outside_its_range_or_in_another_unit() {
    told(
        HAIR,
        "depth_mm",
        "value = 2.25",
        "value = 2.6",
        "2.6 is outside its range of 2 to 2.5",
    );
    told(
        HAIR,
        "[brow.by_age.older]",
        "value = 73",
        "value = 80",
        "80 is outside its range of 56 to 73",
    );
    told(
        BROW_HAIR,
        "[brow_tweeze.removal]",
        "value = 0.05",
        "value = 0.5",
        "0.5 is outside its range of 0 to 0.2",
    );
    told(
        HAIR,
        "depth_mm",
        "\"mm\"",
        "\"d\"",
        "the unit is `d`; here it has to be `mm`",
    );
    told(
        REBOOK,
        "comfortable_days",
        "value = 7",
        "value = 7.5",
        "7.5 days: write a whole number",
    );
}

#[test]
fn figures_with_which_a_clock_means_nothing() {
    let what = "allowed is more than the border before it, and less than 1";
    told(
        CLOCK,
        "half_from",
        "value = 0.375, unit = \"1\", low = 0.30, high = 0.45",
        "value = 0.125, unit = \"1\", low = 0.10, high = 0.45",
        what,
    );
    told(
        CLOCK,
        "fastest",
        "value = 1.7, unit = \"1\", low = 1.25",
        "value = 0.9, unit = \"1\", low = 0.9",
        "allowed is 1 or more",
    );
    told(
        CLOCK,
        "told_clearly",
        "value = 1.10, unit = \"1\", low = 1.07",
        "value = 1.03, unit = \"1\", low = 1.02",
        "allowed is more than told_a_little",
    );
}

#[test]
fn flags_that_are_missing_or_would_make_a_forecast_surer() {
    told(
        FLAGS,
        "[pregnancy]",
        "value = 1.5, unit = \"1\", low = 1,",
        "value = 0.5, unit = \"1\", low = 0.5,",
        "given 0.5; allowed is 1 or more",
    );
    told(
        FLAGS,
        "[alopecia]",
        "\"assumption\"",
        "\"hearsay\"",
        "the source `hearsay` is not in catalogue/sources.toml; add it there or correct the name",
    );
    let copy = Copy::of_the_shipped_content();
    let flags = std::fs::read_to_string(copy.path(FLAGS)).unwrap();
    let (without_the_last, _) = flags.split_once("[chemotherapy]").unwrap();
    std::fs::write(copy.path(FLAGS), without_the_last).unwrap();
    assert_eq!(
        copy.mistake(),
        format!("{FLAGS}: `chemotherapy` is missing; say what it does")
    );
}

#[test]
fn figures_with_which_the_model_means_nothing() {
    let copy = Copy::of_the_shipped_content();
    let line = copy.change(HAIR, "latency_shape", "value = 4", "value = 4.5");
    let told: Vec<String> = copy.mistakes().iter().map(ToString::to_string).collect();
    let what = "latency_shape: given 4.5; allowed is a whole number from 1 to 100";
    assert!(
        told.contains(&format!("{HAIR}, line {line}: {what}")),
        "{told:#?}"
    );
}

#[test]
fn hair_that_never_reaches_a_threshold() {
    let copy = Copy::of_the_shipped_content();
    copy.change(
        HAIR,
        "lost_fraction",
        "value = 0, unit = \"1\", low = 0, high = 0.01",
        "value = 1, unit = \"1\", low = 0, high = 1",
    );
    let told: Vec<String> = copy.mistakes().iter().map(ToString::to_string).collect();
    assert!(
        told.iter()
            .all(|one| one.starts_with(BROW_HAIR) && one.contains("is never reached")),
        "{told:#?}"
    );
    assert_eq!(
        told.len(),
        3,
        "one each for wax, thread and tweezers: {told:#?}"
    );
}

#[test]
fn an_area_without_hair_figures() {
    let what = "the catalogue has no hair figures for `hairline`; add them to the content";
    let copy = Copy::of_the_shipped_content();
    let hair = std::fs::read_to_string(copy.path(HAIR)).unwrap();
    let (without_the_last, _) = hair.split_once("[hairline]").unwrap();
    std::fs::write(copy.path(HAIR), without_the_last).unwrap();
    copy.change(
        BROW_HAIR,
        "[brow_wax]",
        "area = \"brow\"",
        "area = \"hairline\"",
    );
    assert!(copy.mistake().ends_with(what));
}

#[test]
fn concerns_that_name_what_is_not_there() {
    told(
        CONSULTATION,
        "id = \"recent_sun\"",
        "\"no_tanning\"",
        "\"no_plucking\"",
        "`brow_wax` has no `before_next` rule `no_plucking` that names a time",
    );
    told(
        CONSULTATION,
        "id = \"lash_dye_under_16\"",
        "[\"eu\"]",
        "[\"atlantis\"]",
        "the region `atlantis` is not in regions.toml",
    );
    told(
        CONSULTATION,
        "id = \"test_too_young\"",
        "id = \"test_too_young\"",
        "id = \"no_test\"",
        "`no_test` is there already; give each its own name",
    );
}

#[test]
fn a_treatment_of_which_nothing_is_told() {
    let copy = Copy::of_the_shipped_content();
    copy.change(AFTER, "id = \"watering_eyes\"", "\"lash_lift\", ", "");
    let mistakes = copy.read();
    assert!(mistakes.is_ok(), "a sting is still told of a lift");
    copy.change(
        AFTER,
        "id = \"stinging_that_stopped\"",
        "\"lash_lift\", ",
        "",
    );
    assert_eq!(
        copy.mistake(),
        format!("{AFTER}: nothing in `ordinary` is for `lash_lift`; add it to one")
    );
}

#[test]
fn a_treatment_in_two_files() {
    let copy = Copy::of_the_shipped_content();
    let entry = std::fs::read_to_string(copy.path(BROW_COLOUR)).unwrap();
    copy.add("catalogue/treatments/more.toml", &entry);
    let line = 1 + entry
        .split("[brow_tint]")
        .next()
        .unwrap()
        .matches('\n')
        .count();
    assert_eq!(
        copy.mistake(),
        format!(
            "catalogue/treatments/more.toml, line {line}: `brow_tint` is already in another file of treatments"
        )
    );
}

#[test]
fn a_caution_twice() {
    let copy = Copy::of_the_shipped_content();
    let line = copy.change(BROW_COLOUR, "kind = \"steam\"", "steam", "water");
    assert_eq!(
        copy.mistake(),
        format!("{BROW_COLOUR}, line {line}: `brow_tint` has a caution `water` already")
    );
}

#[test]
fn two_treatments_that_disagree_about_what_to_do_before() {
    let what = "`no_plucking` names another time here than above; they have to agree";
    let copy = Copy::of_the_shipped_content();
    let line = copy.change(
        BROW_HAIR,
        "[[brow_tweeze.before_next]]",
        "lead = \"throughout\"",
        "lead = { days = 7 }",
    );
    let told: Vec<String> = copy.mistakes().iter().map(ToString::to_string).collect();
    assert!(
        told.contains(&format!("{BROW_HAIR}, line {line}: {what}")),
        "{told:#?}"
    );
}

#[test]
fn keys_and_terms_that_nobody_knows() {
    let copy = Copy::of_the_shipped_content();
    let line = copy.change(BROW_HAIR, "kind = \"heat\"", "grade", "graed");
    assert!(copy.mistake().starts_with(&format!(
        "{BROW_HAIR}, line {line}: unknown field `graed`, expected one of"
    )));

    let copy = Copy::of_the_shipped_content();
    let line = copy.change(BROW_HAIR, "kind = \"heat\"", "heat", "hot");
    assert!(copy.mistake().starts_with(&format!(
        "{BROW_HAIR}, line {line}: unknown variant `hot`, expected one of"
    )));

    let copy = Copy::of_the_shipped_content();
    copy.change(HAIR, "depth_mm", "depth_mm", "depth");
    assert!(copy.mistake().contains("unknown field `depth`"));
}

#[test]
fn an_emergency_number_that_cannot_be_dialled_or_is_not_shown() {
    let copy = Copy::of_the_shipped_content();
    let line = copy.change(REGIONS, "[uk]", "\"999\"", "\"9 9 9\"");
    let told: Vec<String> = copy.mistakes().iter().map(ToString::to_string).collect();
    let what = "`9 9 9` cannot be dialled; write digits only";
    assert!(
        told.contains(&format!("{REGIONS}, line {line}: {what}")),
        "{told:#?}"
    );
    assert!(
        told.contains(&"languages/en: `emergency.uk` has to show the number 9 9 9".to_owned()),
        "{told:#?}"
    );
}

#[test]
fn no_region_for_a_studio_elsewhere() {
    let copy = Copy::of_the_shipped_content();
    copy.change(REGIONS, "[other]", "[other]", "[elsewhere]");
    let told: Vec<String> = copy.mistakes().iter().map(ToString::to_string).collect();
    let what =
        "regions.toml: the region `other` is missing; it serves studios that are in no other";
    assert!(told.contains(&what.to_owned()), "{told:#?}");
}

#[test]
fn a_file_that_is_not_toml_or_not_there() {
    let copy = Copy::of_the_shipped_content();
    let line = copy.change(HAIR, "depth_mm", "{ value", "value");
    assert!(
        copy.mistake()
            .starts_with(&format!("{HAIR}, line {line}: "))
    );

    let copy = Copy::of_the_shipped_content();
    std::fs::remove_file(copy.path(REBOOK)).unwrap();
    assert!(
        copy.read()
            .unwrap_err()
            .to_string()
            .contains("rebook.toml cannot be read: ")
    );
}

#[test]
fn times_to_look_at_a_patch_test_that_cannot_be_meant() {
    let second = "value = 48\nunit = \"h\"\nlow = 48\nhigh = 48";
    told(
        PATCH_TEST,
        "value = 48",
        second,
        "value = 24\nunit = \"h\"\nlow = 24\nhigh = 24",
        "the times to look have to rise from one to the next",
    );
    told(
        PATCH_TEST,
        "value = 48",
        second,
        "value = 48.5\nunit = \"h\"\nlow = 48\nhigh = 49",
        "48.5: write a whole number, 1 or more",
    );
    told(
        PATCH_TEST,
        "value = 72",
        "sarma_2009",
        "hearsay",
        "the source `hearsay` is not in catalogue/sources.toml; add it there or correct the name",
    );
    let what = "the unit is `h`; here it has to be `d`";
    told(
        PATCH_TEST,
        "[last_days]",
        "unit = \"d\"",
        "unit = \"h\"",
        what,
    );
}

#[test]
fn zones_with_which_nothing_is_meant() {
    told(
        ZONES,
        "hope_times",
        "value = 2, unit = \"1\", low = 1.5",
        "value = 0.9, unit = \"1\", low = 0.5",
        "allowed is 1 or more",
    );
    told(
        ZONES,
        "gap_closing",
        "value = 0.20, unit = \"1\", low = 0.10, high = 0.30",
        "value = 1, unit = \"1\", low = 0.10, high = 1",
        "allowed is more than 0, less than 1",
    );
    told(
        ZONES,
        "longest_hope_days",
        "unit = \"d\"",
        "unit = \"mm\"",
        "the unit is `mm`; here it has to be `d`",
    );
}

#[test]
fn days_before_a_date_that_run_backwards_or_are_no_whole_days() {
    let what = "from 4 days before a date to 3: exchange `occasion_least` and `occasion_most`";
    let copy = Copy::of_the_shipped_content();
    copy.change(REBOOK, "occasion_least", "high = 3", "high = 4");
    let line = copy.change(REBOOK, "occasion_least", "value = 2", "value = 4");
    assert_eq!(copy.mistake(), format!("{REBOOK}, line {line}: {what}"));
    told(
        REBOOK,
        "occasion_least",
        "value = 2",
        "value = 2.5",
        "2.5 days: write a whole number",
    );
}

#[test]
fn two_treatments_that_disagree_about_what_a_rule_asks_for() {
    let what = "`no_plucking` asks for something else here than above; they have to agree";
    let copy = Copy::of_the_shipped_content();
    let line = copy.change(
        BROW_HAIR,
        "[[brow_tweeze.before_next]]",
        "lead = \"throughout\"",
        "lead = \"throughout\"\nact = \"tell\"",
    );
    let told: Vec<String> = copy.mistakes().iter().map(ToString::to_string).collect();
    let place = format!("{BROW_HAIR}, line {}: {what}", line + 1);
    assert!(told.contains(&place), "{told:#?}");
}
