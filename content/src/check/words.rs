//! Words for everything that the rules can say, in every language.

use std::collections::BTreeSet;

use shared_types::{
    care_plan::{Aim, SAID_FIRST, Timing, WindowReason},
    catalogue::{
        caution::Grade,
        concern::{ConcernRule, Condition, Weight},
        flag::Flag,
    },
    consultation::Decision,
    dates,
    outcome::{Ending, ReExposure, Seriousness},
    patch_test::{Noticed, Outcome, Place},
    reaction::{self, How},
    regrowth::clock::{Pace, Seen},
    urgency::{Field, Level},
    visit::{Area, CautionKind, Finding, Treatment},
    zones::{Mark, Zone},
};

use super::{Review, languages};
use crate::{Content, files::LANGUAGES};

/// The sentences beside a form's fields.
const FAULTS: &[&str] = &[
    "report_empty",
    "words_long",
    "reach_long",
    "consent",
    "consent_photos",
    "photos_many",
    "outcome_empty",
    "product_none",
    "wish_none",
    "wish_many",
    "wish_day",
    "wish_past",
    "wish_far",
    "required",
    "too_long",
    "unknown_choice",
    "date",
    "time",
    "future",
    "treatments_none",
    "password_short",
    "code",
    "email",
    "sign_in",
    "whole_number",
    "interval_days",
    "interval_order",
    "interval_sooner",
    "never_open",
    "noticed",
    "patch_place",
    "patch_treatments",
    "patch_test_days",
    "patch_test_recorded",
    "hours",
    "hours_reason",
    "look_first",
    "stopped_days",
];

/// What the client is told of marked zones.
const ZONES_TOLD: &[&str] = &[
    "leave_alone",
    "begins",
    "has_begun",
    "hope",
    "hope_over",
    "no_date",
    "nothing_grows",
    "keep_tidy",
];

pub fn check(content: &Content, found: &mut Review<'_>) {
    let needed = needed(content);
    let numbered = numbered(content);
    let first = languages::first(content);
    let spoken: BTreeSet<&str> = first.iter().flat_map(|(_, words)| words.keys()).collect();
    if content.languages.is_empty() {
        found.missing(
            LANGUAGES,
            "there is no language; at least one is needed".to_owned(),
        );
    }
    for (tag, words) in &content.languages {
        let folder = format!("{LANGUAGES}/{tag}");
        let spoken_elsewhere = spoken.iter().copied().filter(|key| !needed.contains(*key));
        for key in needed.iter().map(String::as_str).chain(spoken_elsewhere) {
            if words.get(key).is_none_or(|text| text.trim().is_empty()) {
                let what =
                    match first.filter(|(one, words)| *one != tag && words.get(key).is_some()) {
                        Some((first, _)) => {
                            let there = languages::place_of(found.files, first, key);
                            format!("the words `{key}` are missing; {there} has them")
                        }
                        None => format!("the words `{key}` are missing"),
                    };
                found.missing(&folder, what);
            }
        }
        for key in &numbered {
            if words.get(key).is_some_and(|text| !text.contains("{n}")) {
                found.missing(
                    &folder,
                    format!("`{key}` has to hold `{{n}}`, where the number of the rule is put"),
                );
            }
        }
        if words
            .get("plural.zero_is_one")
            .is_some_and(|text| !["yes", "no"].contains(&text))
        {
            found.missing(
                &folder,
                "`plural.zero_is_one` has to be `yes` or `no`".to_owned(),
            );
        }
    }
}

/// Keys that the rules and the pages build from terms.
fn needed(content: &Content) -> BTreeSet<String> {
    let mut keys = BTreeSet::new();
    let mut need = |kind: &str, terms: Vec<&str>| {
        keys.extend(terms.iter().map(|term| format!("{kind}.{term}")))
    };
    need(
        "treatment",
        Treatment::ALL.iter().map(|one| one.term()).collect(),
    );
    need("area", Area::ALL.iter().map(|one| one.term()).collect());
    need("your", Area::ALL.iter().map(|one| one.term()).collect());
    need(
        "finding",
        Finding::ALL.iter().map(|one| one.term()).collect(),
    );
    need(
        "patch_place",
        Place::ALL.iter().map(|one| one.term()).collect(),
    );
    need(
        "patch_outcome",
        Outcome::ALL.iter().map(|one| one.term()).collect(),
    );
    need(
        "patch_noticed",
        Noticed::ALL.iter().map(|one| one.term()).collect(),
    );
    need(
        "place",
        reaction::Place::ALL.iter().map(|one| one.term()).collect(),
    );
    need(
        "client.follow",
        How::ALL.iter().map(|one| one.term()).collect(),
    );
    need(
        "urgency.name",
        Field::ALL
            .iter()
            .filter(|field| !field.is_derived())
            .map(|field| field.term())
            .collect(),
    );
    for of_purposes in ["consent", "agreed"] {
        let purposes = reaction::Purpose::ALL.iter();
        need(of_purposes, purposes.map(|one| one.term()).collect());
    }
    need(
        "artist.level",
        Level::ALL.iter().map(|one| one.term()).collect(),
    );
    need("ending", Ending::ALL.iter().map(|one| one.term()).collect());
    need(
        "serious",
        Seriousness::ALL.iter().map(|one| one.term()).collect(),
    );
    need(
        "re_exposure",
        ReExposure::ALL.iter().map(|one| one.term()).collect(),
    );
    need(
        "serious_law",
        content.regions.keys().map(String::as_str).collect(),
    );
    need(
        "client.now.keep",
        SAID_FIRST.iter().map(|one| one.term()).collect(),
    );
    need("grade", Grade::ALL.iter().map(|one| one.term()).collect());
    need("backing", Grade::ALL.iter().map(|one| one.term()).collect());
    need("whose", vec!["label", "studio", "words"]);
    need("label", vec!["why"]);
    need("weight", Weight::ALL.iter().map(|one| one.term()).collect());
    need(
        "decision",
        Decision::ALL.iter().map(|one| one.term()).collect(),
    );
    need(
        "window",
        WindowReason::ALL.iter().map(|one| one.term()).collect(),
    );
    need(
        "window_own",
        WindowReason::ALL
            .iter()
            .filter(|reason| !reason.is_own())
            .map(|one| one.term())
            .collect(),
    );
    need("aim", Aim::ALL.iter().map(|one| one.term()).collect());
    need("wait", Timing::ALL.iter().map(|one| one.term()).collect());
    need(
        "aim_why",
        Aim::ALL
            .iter()
            .filter(|aim| **aim != Aim::Balanced)
            .map(|one| one.term())
            .collect(),
    );
    need(
        "region",
        content.regions.keys().map(String::as_str).collect(),
    );
    need(
        "emergency",
        content.regions.keys().map(String::as_str).collect(),
    );
    need("zone", Zone::ALL.iter().map(|one| one.term()).collect());
    need("mark", Mark::ALL.iter().map(|one| one.term()).collect());
    need("side", vec!["left", "right", "both"]);
    need("zones_told", ZONES_TOLD.to_vec());
    need("fault", FAULTS.to_vec());
    need("calendar", vec!["do", "leave"]);
    need("plural", vec!["zero_is_one"]);
    need("list", vec!["last"]);
    need("language", vec!["name", "choose"]);
    need("forecast", vec!["basis", "half", "seen.one", "seen.other"]);
    need("batches.verdict", vec!["nothing", "look", "set_aside"]);
    need(
        "batches.because",
        vec![
            "serious",
            "serious_plausible",
            "same_pattern",
            "exact_test",
            "many",
        ],
    );
    need("pace", Pace::ALL.iter().map(|one| one.term()).collect());
    need("seen", Seen::ALL.iter().map(|one| one.term()).collect());
    need("flag", Flag::ALL.iter().map(|one| one.term()).collect());
    need(
        "settling",
        vec!["care", "ordinary", "not_ordinary", "until", "from"],
    );
    need(
        "forecast_flag",
        Flag::ALL.iter().map(|one| one.term()).collect(),
    );
    let before = content
        .catalogue
        .treatments
        .values()
        .flat_map(|entry| &entry.before_next);
    need("before", before.map(|rule| rule.id.as_str()).collect());
    let after = &content.catalogue.after;
    need(
        "ordinary",
        after.ordinary.iter().map(|rule| rule.id.as_str()).collect(),
    );
    need(
        "not_ordinary",
        after
            .not_ordinary
            .iter()
            .map(|rule| rule.id.as_str())
            .collect(),
    );
    need(
        "tip",
        after.tips.iter().map(|rule| rule.id.as_str()).collect(),
    );
    let concerns = content.catalogue.concerns.iter();
    need("concern", concerns.map(|rule| rule.id.as_str()).collect());
    keys.extend(super::urgency::words(&content.catalogue.urgency));
    for kind in CautionKind::ALL {
        keys.insert(format!("caution.{kind}.what"));
    }
    let cautions = content.catalogue.treatments.values();
    for rule in cautions.flat_map(|entry| &entry.cautions) {
        keys.insert(rule.why_key());
        let said = rule.said_with.values();
        keys.extend(said.map(|word| format!("caution.{}.what_{word}", rule.kind)));
    }
    keys.extend((1..=7).map(|day| format!("date.weekday.{day}")));
    keys.extend((1..=12).map(|month| format!("date.month.{month}")));
    keys.insert(dates::FIRST_DAY.to_owned());
    keys.extend(dates::PATTERNS.iter().map(|pattern| (*pattern).to_owned()));
    keys
}

/// Whether a concern's sentence has a number to name.
fn has_number(rule: &ConcernRule) -> bool {
    rule.lead_of.is_some()
        || matches!(
            rule.when,
            Condition::TooSoon | Condition::PatchTestOlderThanDays(_)
        )
}

/// Keys of sentences that name the number of their rule.
fn numbered(content: &Content) -> BTreeSet<String> {
    content
        .catalogue
        .treatments
        .values()
        .flat_map(|entry| &entry.before_next)
        .filter(|rule| rule.lead.named().is_some())
        .map(|rule| format!("before.{}", rule.id))
        .chain(
            content
                .catalogue
                .concerns
                .iter()
                .filter(|rule| has_number(rule))
                .map(|rule| format!("concern.{}", rule.id)),
        )
        .collect()
}
