//! Before a treatment: what the sources stop, delay or have asked about first, against those sources; and every treatment
//! with every finding, region and state of a skin test.

#![cfg(test)]

use std::{collections::BTreeSet, sync::LazyLock};

use chrono::{DateTime, NaiveDate, TimeDelta, Utc};
use content::Content;
use shared_types::{
    catalogue::{caution::Grade, concern::Weight, flag::Flag},
    consultation::{Clears, Concern, Consultation, NotAgain, PatchTest, concerns},
    patch_test::Outcome,
    visit::{Finding, Findings, Product, Treatment},
};

use Treatment::{
    BrowLamination, BrowThread, BrowTint, BrowTweeze, BrowWax, ChinWax, FaceWax, LashLift,
    LashTint, LipWax,
};

static CONTENT: LazyLock<Content> = LazyLock::new(|| Content::built_in().unwrap());

fn at() -> DateTime<Utc> {
    "2026-10-24T09:00:00Z".parse().unwrap()
}

fn date(text: &str) -> NaiveDate {
    text.parse().unwrap()
}

/// A consultation of which nothing is known, in the United Kingdom.
fn asked<'a>(treatments: &'a [Treatment], tests: &'a [PatchTest]) -> Consultation<'a> {
    Consultation {
        at: at(),
        local_date: date("2026-10-24"),
        treatments,
        findings: Findings::default(),
        flags: &[],
        region: "uk",
        retinoid_stopped_days: None,
        earlier: &[],
        patch_tests: tests,
        patch_test_days: None,
        products: &[],
        not_again: &[],
    }
}

fn raised(before: &Consultation<'_>) -> Vec<Concern> {
    concerns(&CONTENT.catalogue, before)
}

fn find(before: &Consultation<'_>, id: &str) -> Option<Concern> {
    raised(before).into_iter().find(|one| one.id == id)
}

fn tested(treatment: Treatment, hours_ago: i64) -> PatchTest {
    PatchTest {
        treatment,
        applied_at: at() - TimeDelta::hours(hours_ago),
        outcome: Some(Outcome::NoReaction),
        product_changed: false,
    }
}

/// American Academy of Dermatology: no waxing, eyebrows included, during isotretinoin and for 6 months after.
#[test]
fn retinoid_tablets_and_wax() {
    for wax in [BrowWax, LipWax, ChinWax, FaceWax] {
        let treatments = [wax];
        let before = Consultation {
            findings: Findings::default().and(Finding::OralRetinoid),
            ..asked(&treatments, &[])
        };
        let concern = find(&before, "oral_retinoid_wax").unwrap();
        assert_eq!(
            (concern.weight, concern.n, concern.grade),
            (Weight::LeaveOut, Some(6), Grade::RegulatorOrHealthService),
            "{wax}"
        );
        let sentence = concern.sentence(&CONTENT.languages["en"]);
        assert!(sentence.contains("last 6 months"), "{sentence}");
    }
    let tweezers = Consultation {
        findings: Findings::default().and(Finding::OralRetinoid),
        ..asked(&[BrowTweeze], &[])
    };
    assert_eq!(raised(&tweezers), []);
}

/// Day, textbook: stopped 5 to 7 days before waxing. American Academy of Dermatology 2016: 2 to 5 days. Seven are asked.
#[test]
fn a_retinoid_on_the_skin_and_wax() {
    let with = |finding: bool, stopped: Option<u32>| {
        let findings = Findings {
            topical_retinoid: finding,
            ..Findings::default()
        };
        let before = Consultation {
            findings,
            retinoid_stopped_days: stopped,
            ..asked(&[BrowWax], &[])
        };
        find(&before, "retinoid_not_stopped").map(|one| (one.weight, one.n, one.clears))
    };
    let clears = |text| Some(Clears::On(date(text)));
    assert_eq!(with(true, None), Some((Weight::Wait, Some(7), None)));
    assert_eq!(
        with(true, Some(0)),
        Some((Weight::Wait, Some(7), clears("2026-10-31")))
    );
    assert_eq!(
        with(true, Some(6)),
        Some((Weight::Wait, Some(7), clears("2026-10-25")))
    );
    assert_eq!(with(true, Some(7)), None);
    assert_eq!(with(false, None), None);
}

/// Provincial Health Services Authority (British Columbia): no tanning for 24 h before waxing; no waxing over sunburn, cold
/// sores, or broken or inflamed skin.
#[test]
fn sunburn_broken_skin_and_cold_sores() {
    for (finding, id, n) in [
        (Finding::RecentSun, "recent_sun", Some(24)),
        (Finding::BrokenSkin, "broken_skin", None),
        (Finding::ColdSore, "cold_sore", None),
    ] {
        for wax in [BrowWax, LipWax, ChinWax, FaceWax] {
            let treatments = [wax];
            let before = Consultation {
                findings: Findings::default().and(finding),
                ..asked(&treatments, &[])
            };
            let concern = find(&before, id).unwrap();
            assert_eq!(
                (concern.weight, concern.n, concern.grade),
                (Weight::Wait, n, Grade::RegulatorOrHealthService),
                "{wax}: {id}"
            );
        }
    }
}

/// European Union, Cosmetics Regulation 1223/2009, Annex III: no lash dye with p-phenylenediamine under 16. Other regions
/// have codes of their own.
#[test]
fn lash_dye_under_sixteen_by_region() {
    for (region, weight) in [
        ("eu", Weight::LeaveOut),
        ("uk", Weight::LeaveOut),
        ("us", Weight::CheckFirst),
        ("other", Weight::CheckFirst),
    ] {
        let tests = [tested(LashTint, 50)];
        let young = Consultation {
            region,
            findings: Findings::default().and(Finding::Under16),
            ..asked(&[LashTint], &tests)
        };
        let of_age: Vec<Concern> = raised(&young)
            .into_iter()
            .filter(|one| one.id.contains("dye"))
            .collect();
        assert_eq!(of_age.len(), 1, "{region}: {of_age:?}");
        assert_eq!(of_age[0].weight, weight, "{region}");
        assert!(find(&young, "minor").is_some(), "{region}");
        let grown = asked(&[LashTint], &tests);
        assert!(find(&Consultation { region, ..grown }, "minor").is_none());
    }
}

/// Food and Drug Administration: no colour additive was approved for permanent dyeing of lashes and brows, and states may
/// forbid it.
#[test]
fn tints_ask_for_the_local_code_where_it_may_forbid_them() {
    let tests = [tested(BrowTint, 50)];
    let tint = asked(&[BrowTint], &tests);
    let us = Consultation {
        region: "us",
        ..tint
    };
    assert!(find(&us, "local_tint_rules").is_some());
    assert_eq!(raised(&tint), [], "in the United Kingdom nothing stands");
}

/// Makers of hair colour: 48 h after the test, to the minute. Common practice, no source: a new test after six months,
/// another product or a reaction.
#[test]
fn the_skin_test() {
    let ids = |tests: &[PatchTest], days: Option<u32>| -> Vec<String> {
        let before = Consultation {
            patch_test_days: days,
            ..asked(&[BrowTint], tests)
        };
        raised(&before).into_iter().map(|one| one.id).collect()
    };
    assert_eq!(ids(&[], None), ["no_test"]);
    assert_eq!(ids(&[tested(LashTint, 50)], None), ["no_test"]);
    assert_eq!(ids(&[tested(BrowTint, 47)], None), ["test_too_young"]);
    assert!(ids(&[tested(BrowTint, 48)], None).is_empty());
    assert!(ids(&[tested(BrowTint, 182 * 24)], None).is_empty());
    assert_eq!(
        ids(&[tested(BrowTint, 182 * 24 + 1)], None),
        ["test_too_old"]
    );
    assert_eq!(
        ids(&[tested(BrowTint, 31 * 24)], Some(30)),
        ["test_too_old"],
        "the studio's own limit"
    );
    let test = tested(BrowTint, 50);
    let shown = |outcome| PatchTest { outcome, ..test };
    assert_eq!(
        ids(&[shown(Some(Outcome::Reacted))], None),
        ["reacted_to_test"]
    );
    assert_eq!(
        ids(&[shown(Some(Outcome::Unclear))], None),
        ["test_unclear"]
    );
    assert_eq!(ids(&[shown(None)], None), ["test_unread"]);
    let changed = PatchTest {
        product_changed: true,
        ..test
    };
    assert_eq!(ids(&[changed], None), ["product_changed"]);
    // The newest test counts.
    assert!(ids(&[tested(BrowTint, 300 * 24), test], None).is_empty());
}

#[test]
fn a_test_that_is_too_young_says_when_it_is_old_enough() {
    let tests = [tested(BrowTint, 47)];
    let concern = find(&asked(&[BrowTint], &tests), "test_too_young").unwrap();
    assert_eq!(concern.clears, Some(Clears::At(at() + TimeDelta::hours(1))));
    assert_eq!(concern.n, Some(48));
}

/// Common practice, no source: lamination and lift never sooner than 6 weeks after the last.
#[test]
fn lamination_and_lift_again() {
    for treatment in [BrowLamination, LashLift] {
        let (treatments, tests) = ([treatment], [tested(treatment, 50)]);
        let after = |last: &str| {
            let earlier = [(treatment, date("2026-06-01")), (treatment, date(last))];
            let before = Consultation {
                earlier: &earlier,
                ..asked(&treatments, &tests)
            };
            find(&before, "set_again_too_soon").map(|one| (one.n, one.clears))
        };
        // 12 September and six weeks are 24 October.
        assert_eq!(after("2026-09-12"), None);
        let clears = Clears::On(date("2026-10-25"));
        assert_eq!(after("2026-09-13"), Some((Some(42), Some(clears))));
    }
    // The other one does not count: brows are no lashes.
    let earlier = [(LashLift, date("2026-10-01"))];
    let tests = [tested(BrowLamination, 50)];
    let before = Consultation {
        earlier: &earlier,
        ..asked(&[BrowLamination], &tests)
    };
    assert_eq!(raised(&before), []);
}

/// Every treatment with every two findings, every flag, every region, and a skin test in every state: each concern is
/// about a treatment of today, firmest first, and can be said.
#[test]
fn every_combination_can_be_said() {
    let words = &CONTENT.languages["en"];
    let mut raised_at_all = BTreeSet::new();
    let products = [Product {
        name: "Velm soft wax".to_owned(),
        batch: "VW 2261".to_owned(),
    }];
    let not_again = [NotAgain {
        product: "Velm soft wax".to_owned(),
        batch: String::new(),
    }];
    for treatment in Treatment::ALL {
        let old = tested(*treatment, 24 * 400);
        let odd = PatchTest {
            outcome: Some(Outcome::Reacted),
            product_changed: true,
            ..tested(*treatment, 3)
        };
        let unread = PatchTest {
            outcome: None,
            ..tested(*treatment, 60)
        };
        let unclear = PatchTest {
            outcome: Some(Outcome::Unclear),
            ..tested(*treatment, 60)
        };
        let earlier = [(*treatment, date("2026-10-20"))];
        for tests in [&[][..], &[old], &[odd], &[unread], &[unclear]] {
            for region in CONTENT.regions.keys() {
                for first in Finding::ALL {
                    for second in Finding::ALL {
                        let treatments = [*treatment, BrowThread];
                        let before = Consultation {
                            findings: Findings::default().and(*first).and(*second),
                            flags: Flag::ALL,
                            region,
                            products: &products,
                            not_again: &not_again,
                            earlier: &earlier,
                            ..asked(&treatments, tests)
                        };
                        let raised = raised(&before);
                        assert!(raised.is_sorted_by_key(|one| one.weight));
                        for concern in raised {
                            assert!(!concern.treatments.is_empty());
                            assert!(
                                concern
                                    .treatments
                                    .iter()
                                    .all(|one| treatments.contains(one))
                            );
                            let sentence = concern.sentence(words);
                            assert!(!sentence.contains(['{', '}']), "{sentence}");
                            assert!(!sentence.contains("  "), "a number is missing: {sentence}");
                            raised_at_all.insert(concern.id);
                        }
                    }
                }
            }
        }
    }
    let rules = &CONTENT.catalogue.concerns;
    let all: BTreeSet<String> = rules.iter().map(|rule| rule.id.clone()).collect();
    assert_eq!(raised_at_all, all, "each rule comes to be");
}
