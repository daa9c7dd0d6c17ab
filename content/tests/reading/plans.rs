//! Care plans with the shipped figures. Instants across clock changes are checked elsewhere, against another library.

use Treatment::{BrowTint, BrowTweeze, BrowWax};
use chrono::{DateTime, NaiveDate, Utc};
use content::Content;
use shared_types::{
    care_plan::{
        Because, CarePlan, Caution, Person, PlanError, PlanFor, Practice, WindowReason,
        own::Beside, plan,
    },
    catalogue::{Catalogue, caution::Grade, treatment::Lead},
    visit::{CautionKind, Finding, Findings, Treatment},
};

fn finished_at() -> DateTime<Utc> {
    "2026-10-24T17:30:00Z".parse().unwrap()
}

fn plan_in(
    catalogue: &Catalogue,
    treatments: &[Treatment],
    findings: Findings,
) -> Result<CarePlan, PlanError> {
    let local_date = NaiveDate::from_ymd_opt(2026, 10, 24).unwrap();
    let visit = PlanFor {
        finished_at: finished_at(),
        local_date,
        treatments,
        findings,
        person: &Person::default(),
        practice: &Practice::default(),
        beside: Beside::default(),
    };
    plan(catalogue, &visit)
}

fn plan_of(treatments: &[Treatment], findings: Findings) -> CarePlan {
    plan_in(
        &Content::built_in().unwrap().catalogue,
        treatments,
        findings,
    )
    .unwrap()
}

fn caution(plan: &CarePlan, kind: CautionKind) -> Caution {
    plan.cautions
        .iter()
        .find(|one| one.kind == kind)
        .unwrap()
        .clone()
}

/// Hours of common practice, no source, but: sun 24 h after waxing by a health service (PHSA), retinoids 2 days after
/// by a textbook (Day).
#[test]
fn a_wax_calls_for_these_hours() {
    let plan = plan_of(&[BrowWax], Findings::default());
    let hours: Vec<(&str, u32)> = plan
        .cautions
        .iter()
        .map(|one| (one.kind.term(), one.hours))
        .collect();
    let expected = [
        ("touching", 24),
        ("exercise", 24),
        ("make_up", 24),
        ("heat", 48),
        ("swimming", 48),
        ("sun", 48),
        ("exfoliation", 72),
        ("actives", 72),
    ];
    assert_eq!(hours, expected);
}

#[test]
fn a_retinoid_lengthens_the_wait_for_actives_to_a_week_and_is_named() {
    let actives = caution(
        &plan_of(
            &[BrowWax],
            Findings::default().and(Finding::TopicalRetinoid),
        ),
        CautionKind::Actives,
    );
    assert_eq!(actives.hours, 168);
    assert_eq!(actives.until, finished_at() + chrono::TimeDelta::days(7));
    let because = [
        Because::Treatment(BrowWax),
        Because::Finding(Finding::TopicalRetinoid),
    ];
    assert_eq!(actives.because, because);
}

#[test]
fn no_finding_ever_shortens_a_caution() {
    for treatment in Treatment::ALL {
        let treatment = *treatment;
        let without = plan_of(&[treatment], Findings::default());
        for finding in Finding::ALL {
            let with = plan_of(&[treatment], Findings::default().and(*finding));
            for one in &without.cautions {
                assert!(
                    caution(&with, one.kind).hours >= one.hours,
                    "{treatment} {finding} {}",
                    one.kind
                );
            }
        }
    }
}

#[test]
fn windows_of_one_kind_merge_to_the_latest_end_and_name_everything_that_calls_for_them() {
    let both = plan_of(&[BrowTint, BrowTweeze, BrowWax], Findings::default());
    let heat = caution(&both, CautionKind::Heat);
    assert_eq!(heat.hours, 48, "wax asks for longer than tweezing");
    assert_eq!(
        heat.because,
        [Because::Treatment(BrowWax), Because::Treatment(BrowTweeze)]
    );
    let touching = caution(&both, CautionKind::Touching);
    assert_eq!(
        touching.because,
        [BrowWax, BrowTweeze, BrowTint].map(Because::Treatment)
    );
    let kinds: Vec<CautionKind> = both.cautions.iter().map(|one| one.kind).collect();
    assert_eq!(
        kinds.len(),
        kinds
            .iter()
            .collect::<std::collections::BTreeSet<_>>()
            .len(),
        "one of each kind"
    );
}

#[test]
fn cautions_are_sorted_by_end_then_in_the_order_of_the_kinds() {
    let plan = plan_of(
        &[BrowTint, BrowWax],
        Findings::default().and(Finding::Sensitive),
    );
    let keys: Vec<_> = plan
        .cautions
        .iter()
        .map(|one| (one.until, one.kind))
        .collect();
    let mut sorted = keys.clone();
    sorted.sort();
    assert_eq!(keys, sorted);
}

#[test]
fn the_order_and_number_of_treatments_given_does_not_matter() {
    let once = plan_of(&[BrowWax, BrowTint], Findings::default());
    assert_eq!(
        plan_of(&[BrowTint, BrowWax, BrowTint], Findings::default()),
        once
    );
}

/// Four to six weeks are common practice, no source. Within them the best day is the last on which 0.70 of the colour is
/// left: (1 - t/164) * 0.99649^t is 0.7034 on day 34 and 0.6955 on day 35 (worked by hand).
#[test]
fn a_tint_comes_back_within_the_trades_four_to_six_weeks_while_it_is_even() {
    let plan = plan_of(&[BrowTint], Findings::default());
    let window = &plan.next_visit.windows[0];
    let days = [window.earliest, window.best, window.latest].map(|date| date.to_string());
    assert_eq!(days, ["2026-11-21", "2026-11-27", "2026-12-05"]);
    assert_eq!(
        (window.reason, window.basis),
        (WindowReason::TintEven, Grade::CommonPractice)
    );
}

/// Table 10.4 of the model: V reaches 0.2 on day 27.1 and 0.3 on day 31.9; G(3 mm) reaches 0.5 on day 58.7.
#[test]
fn a_wax_comes_back_with_the_hair() {
    let plan = plan_of(&[BrowWax], Findings::default());
    let window = &plan.next_visit.windows[0];
    let days = [window.earliest, window.best, window.latest].map(|date| date.to_string());
    assert_eq!(days, ["2026-11-21", "2026-11-25", "2026-12-22"]);
    assert_eq!(window.reason, WindowReason::Regrowth);
}

#[test]
fn a_suggestion_lies_after_every_earliest_and_has_an_end() {
    for treatments in [
        &[BrowWax][..],
        &[BrowTweeze],
        &[BrowTint],
        &[BrowWax, BrowTweeze, BrowTint],
    ] {
        let next = plan_of(treatments, Findings::default()).next_visit;
        let suggested = next.suggested.unwrap();
        assert!(suggested.from <= suggested.until);
        for window in &next.windows {
            assert!(window.earliest <= window.best && window.best <= window.comfortable_until);
            assert!(window.comfortable_until <= window.latest);
            assert!(suggested.from >= window.earliest);
        }
    }
}

#[test]
fn what_to_do_before_is_said_once_for_all_treatments() {
    let plan = plan_of(
        &[BrowWax, BrowTweeze, BrowTint],
        Findings::default().and(Finding::TopicalRetinoid),
    );
    let said: Vec<(&str, Lead)> = plan
        .before_next_visit
        .iter()
        .map(|one| (one.id.as_str(), one.lead))
        .collect();
    let expected = [
        ("no_plucking", Lead::Throughout),
        ("topical_retinoid", Lead::Days(7)),
        ("oral_retinoid", Lead::Months(6)),
        ("no_tanning", Lead::Hours(24)),
        ("calm_skin", Lead::OnTheDay),
        ("patch_test", Lead::Hours(48)),
    ];
    assert_eq!(said, expected);
    let plucking = &plan.before_next_visit[0];
    assert_eq!(
        plucking.because,
        [BrowWax, BrowTweeze].map(Because::Treatment)
    );
    let retinoid = &plan.before_next_visit[1];
    assert_eq!(
        retinoid.because,
        [
            Because::Treatment(BrowWax),
            Because::Finding(Finding::TopicalRetinoid)
        ]
    );
}

#[test]
fn the_sentence_names_the_number_of_its_rule() {
    let content = Content::built_in().unwrap();
    for before in plan_of(&[BrowWax, BrowTint], Findings::default()).before_next_visit {
        let sentence = before.sentence(&content.languages["en"]);
        assert!(!sentence.contains(['{', '}']), "{sentence}");
        if let Some((_, n)) = before.lead.named() {
            assert!(sentence.contains(&format!(" {n} ")), "{sentence}");
        }
    }
}

#[test]
fn what_cannot_be_planned_says_what_to_do() {
    let mut catalogue = Content::built_in().unwrap().catalogue;
    catalogue
        .treatments
        .retain(|treatment, _| [BrowWax, BrowTint].contains(treatment));
    let none = plan_in(&catalogue, &[], Findings::default())
        .unwrap_err()
        .to_string();
    assert_eq!(
        none,
        "no treatment was given; give at least one of brow_wax, brow_tint"
    );
    let unknown = plan_in(
        &catalogue,
        &[BrowWax, Treatment::LashLift],
        Findings::default(),
    )
    .unwrap_err()
    .to_string();
    assert_eq!(
        unknown,
        "there is no advice for `lash_lift` yet; there is for brow_wax, brow_tint"
    );
}

/// A brow wax and a lash lift ask for make-up to be left off, a lip wax too: the client reads where, each place once.
#[test]
fn a_caution_names_every_treated_place_and_gives_every_reason() {
    let content = Content::built_in().unwrap();
    let words = &content.languages["en"];
    let treatments = [
        BrowWax,
        BrowTint,
        Treatment::LashLift,
        Treatment::LashTint,
        Treatment::LipWax,
    ];
    let plan = plan_of(&treatments, Findings::default());
    let make_up = caution(&plan, CautionKind::MakeUp);
    assert_eq!(
        make_up.what(words),
        "No make-up or cream on your brows, your lashes and your upper lip"
    );
    let why = make_up.why(words);
    for key in ["why", "why_colour", "why_set"] {
        assert_eq!(
            why.matches(words.say(&format!("caution.make_up.{key}")))
                .count(),
            1,
            "{why}"
        );
    }
    let water = caution(&plan, CautionKind::Water);
    assert_eq!(water.what(words), "Keep your brows and your lashes dry");
}

#[test]
fn what_to_do_before_names_the_treated_places() {
    let content = Content::built_in().unwrap();
    let plan = plan_of(&[BrowWax, Treatment::LipWax], Findings::default());
    let sentence = plan.before_next_visit[0].sentence(&content.languages["en"]);
    assert!(
        sentence.contains("on your brows and your upper lip grow"),
        "{sentence}"
    );
}

#[test]
fn a_plan_that_was_frozen_reads_back_the_same() {
    let plan = plan_of(
        &[BrowWax, BrowTint],
        Findings::default().and(Finding::TopicalRetinoid),
    );
    let frozen = serde_json::to_string(&plan).unwrap();
    assert_eq!(serde_json::from_str::<CarePlan>(&frozen).unwrap(), plan);
}
