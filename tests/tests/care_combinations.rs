//! Every treatment alone and every two together, with every set of findings: the plan holds together and can be said.

#![cfg(test)]

use std::collections::BTreeSet;

use chrono::{DateTime, NaiveDate, TimeDelta, Utc};
use content::Content;
use shared_types::{
    care_plan::{CarePlan, Person, PlanFor, Practice, plan},
    visit::{Finding, Findings, Treatment},
};

fn finished_at() -> DateTime<Utc> {
    "2026-10-24T17:30:00Z".parse().unwrap()
}

fn visit_date() -> NaiveDate {
    "2026-10-24".parse().unwrap()
}

/// Each treatment alone, then each two together.
fn pairs() -> Vec<Vec<Treatment>> {
    let all = Treatment::ALL;
    let alone = all.iter().map(|one| vec![*one]);
    let two = all.iter().enumerate().flat_map(|(index, first)| {
        all.iter()
            .skip(index + 1)
            .map(move |second| vec![*first, *second])
    });
    alone.chain(two).collect()
}

/// Every set of findings.
fn findings() -> impl Iterator<Item = Findings> {
    (0..1_u32 << Finding::ALL.len()).map(|bits| {
        let found = Finding::ALL.iter().enumerate();
        found
            .filter(|(index, _)| bits >> index & 1 == 1)
            .fold(Findings::default(), |all, (_, one)| all.and(*one))
    })
}

fn plan_of(content: &Content, treatments: &[Treatment], findings: Findings) -> CarePlan {
    let visit = PlanFor {
        finished_at: finished_at(),
        local_date: visit_date(),
        treatments,
        findings,
        person: &Person::default(),
        practice: &Practice::default(),
    };
    plan(&content.catalogue, &visit).unwrap_or_else(|error| panic!("{treatments:?}: {error}"))
}

fn expect_valid(content: &Content, plan: &CarePlan, treatments: &[Treatment], findings: Findings) {
    let case = || format!("{treatments:?} with {findings:?}");
    let kinds: BTreeSet<_> = plan.cautions.iter().map(|one| one.kind).collect();
    assert_eq!(
        kinds.len(),
        plan.cautions.len(),
        "one of a kind: {}",
        case()
    );
    assert!(!plan.cautions.is_empty(), "{}", case());
    for caution in &plan.cautions {
        // The union of windows that all begin at the end of the visit is the longest of them.
        let longest = treatments
            .iter()
            .flat_map(|one| &content.catalogue.treatments[one].cautions)
            .filter(|rule| rule.kind == caution.kind)
            .map(|rule| rule.hours_for(findings).0)
            .max();
        assert_eq!(Some(caution.hours), longest, "{}", case());
        assert_eq!(caution.from, finished_at(), "{}", case());
        let elapsed = TimeDelta::hours(caution.hours.into());
        assert_eq!(caution.until - caution.from, elapsed, "{}", case());
        assert!(!caution.because.is_empty() && !caution.sources.is_empty());
    }
    let suggested = plan.next_visit.suggested.expect("a time to come back");
    assert!(suggested.from <= suggested.until, "{}", case());
    for window in &plan.next_visit.windows {
        assert!(visit_date() < window.earliest, "{}", case());
        assert!(window.earliest <= window.best && window.best <= window.latest);
        assert!(window.earliest <= suggested.from, "{}", case());
        let interval = &content.catalogue.treatments[&window.treatment].interval;
        let earliest = (window.earliest - visit_date()).num_days();
        assert!(earliest >= i64::from(interval.earliest_days), "{}", case());
    }
}

/// Nothing is left without words, and no place for a number or a name is left open.
fn expect_said(sentence: &str, said: &mut BTreeSet<String>) {
    assert!(!sentence.contains(['{', '}']), "{sentence}");
    assert!(sentence.contains(' '), "a key instead of words: {sentence}");
    said.insert(sentence.to_owned());
}

#[test]
fn every_combination_has_a_plan_that_holds_together_and_words() {
    let content = Content::built_in().unwrap();
    let mut said = BTreeSet::new();
    for treatments in pairs() {
        for findings in findings() {
            let plan = plan_of(&content, &treatments, findings);
            expect_valid(&content, &plan, &treatments, findings);
            for words in content.languages.values() {
                for caution in &plan.cautions {
                    expect_said(&caution.what(words), &mut said);
                    expect_said(&caution.why(words), &mut said);
                }
                for before in &plan.before_next_visit {
                    expect_said(&before.sentence(words), &mut said);
                }
            }
        }
    }
    assert!(said.len() > 60, "{said:#?}");
}
