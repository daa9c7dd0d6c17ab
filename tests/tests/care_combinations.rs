//! Every treatment alone and every two together, with every set of findings: the plan holds together and can be said.

#![cfg(test)]

use std::collections::BTreeSet;

use chrono::{DateTime, NaiveDate, TimeDelta, Utc};
use content::Content;
use shared_types::{
    care_plan::{CarePlan, Caution, Person, PlanFor, Practice, own::Beside, plan},
    visit::{Area, CautionKind, Finding, Findings, Treatment},
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

/// The findings that some rule about these treatments names. No other changes their plan:
/// [`what_no_rule_names_changes_nothing`].
fn named(content: &Content, treatments: &[Treatment]) -> Vec<Finding> {
    let catalogue = &content.catalogue;
    let mut named = BTreeSet::new();
    for entry in treatments.iter().map(|one| &catalogue.treatments[one]) {
        for rule in &entry.cautions {
            named.extend(rule.hours_with.keys());
            named.extend(rule.said_with.keys());
            named.extend(&rule.only_with);
        }
        named.extend(entry.before_next.iter().flat_map(|rule| &rule.findings));
    }
    let tips = catalogue.after.tips.iter();
    let about_these = tips.filter(|tip| tip.treatments.iter().any(|one| treatments.contains(one)));
    named.extend(about_these.flat_map(|tip| &tip.only_with));
    named.into_iter().collect()
}

/// Every set of these findings.
fn sets(of: &[Finding]) -> impl Iterator<Item = Findings> {
    (0..1_u32 << of.len()).map(|bits| {
        let found = of.iter().enumerate();
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
        beside: Beside::default(),
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
            .filter(|rule| rule.kind == caution.kind && findings.any_of(&rule.only_with))
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
    let mut cases = 0;
    for treatments in pairs() {
        for findings in sets(&named(&content, &treatments)) {
            cases += 1;
            let plan = plan_of(&content, &treatments, findings);
            expect_valid(&content, &plan, &treatments, findings);
            for words in content.languages.values() {
                for caution in &plan.cautions {
                    expect_said(&caution.what(words), &mut said);
                    expect_said(&caution.why(words), &mut said);
                }
                for one in &plan.after.ordinary {
                    expect_said(&one.sentence(words), &mut said);
                }
                for one in &plan.after.not_ordinary {
                    expect_said(&one.sentence(words), &mut said);
                }
                for one in &plan.after.tips {
                    expect_said(&one.sentence(words), &mut said);
                }
                for before in &plan.before_next_visit {
                    expect_said(&before.sentence(words), &mut said);
                }
            }
        }
    }
    assert!(cases > 4000 && said.len() > 80, "{cases}: {said:#?}");
}

#[test]
fn what_no_rule_names_changes_nothing() {
    let content = Content::built_in().unwrap();
    for treatments in pairs() {
        let named = named(&content, &treatments);
        let without = plan_of(&content, &treatments, Findings::default());
        for finding in Finding::ALL.iter().filter(|one| !named.contains(one)) {
            let with = plan_of(&content, &treatments, Findings::default().and(*finding));
            assert_eq!(with, without, "{treatments:?}: {finding}");
        }
    }
}

/// A tip never asks for what a caution forbids at that moment.
#[test]
fn no_tip_contradicts_a_caution() {
    let content = Content::built_in().unwrap();
    let mut waiting = 0;
    for treatments in pairs() {
        for findings in sets(&named(&content, &treatments)) {
            let plan = plan_of(&content, &treatments, findings);
            for tip in &plan.after.tips {
                let rules = &content.catalogue.after.tips;
                let rule = rules.iter().find(|rule| rule.id == tip.id).unwrap();
                let from = tip.from.unwrap_or_else(finished_at);
                waiting += usize::from(tip.from.is_some());
                for caution in &plan.cautions {
                    assert!(
                        !rule.involves.contains(&caution.kind) || caution.until <= from,
                        "{treatments:?} with {findings:?}: {} from {from}, but {} until {}",
                        tip.id,
                        caution.kind,
                        caution.until
                    );
                }
            }
        }
    }
    assert!(waiting > 100, "{waiting}");
}

/// What the artist put on is not forbidden by the same page: the sentence says so, for every treatment.
#[test]
fn what_the_artist_put_on_is_not_called_forbidden() {
    let content = Content::built_in().unwrap();
    let mut said = 0;
    for (finding, kind) in [
        (Finding::Concealer, CautionKind::MakeUp),
        (Finding::Pencil, CautionKind::MakeUp),
        (Finding::BarrierOil, CautionKind::Oil),
    ] {
        for treatments in pairs() {
            let plan = plan_of(&content, &treatments, Findings::default().and(finding));
            // On lashes neither is put on.
            let on_skin = |one: &Caution| one.areas.iter().any(|area| *area != Area::UpperLash);
            let caution = plan.cautions.iter().find(|one| one.kind == kind);
            for caution in caution.into_iter().filter(|one| on_skin(one)) {
                let what = caution.what(&content.languages["en"]);
                assert!(
                    what.contains(" than your artist "),
                    "{treatments:?}: {what}"
                );
                said += 1;
            }
        }
    }
    assert!(said > 50, "{said}");
}
