//! The catalogue's hours, lengths and weeks against what health services, textbooks and the trade say.
//!
//! Ranges are those of the source named beside them. Where it says "common practice, no source", handbooks and salons
//! say so and nobody measured it; those are from memory.

#![cfg(test)]

use std::sync::LazyLock;

use content::Content;
use shared_types::{
    catalogue::{
        Catalogue,
        caution::{CautionRule, Grade},
        treatment::{Lead, TreatmentEntry},
    },
    visit::{CautionKind, Finding, Treatment},
};

use CautionKind::{
    Actives, ContactLenses, Exercise, Exfoliation, Heat, MakeUp, Oil, Steam, Sun, Swimming,
    Touching, Water,
};
use Treatment::{
    BrowHenna, BrowLamination, BrowThread, BrowTint, BrowTweeze, BrowWax, ChinWax, FaceWax,
    LashExtensions, LashLift, LashTint, LipWax,
};

const WAXES: [Treatment; 4] = [BrowWax, LipWax, ChinWax, FaceWax];
const REMOVALS: [Treatment; 6] = [BrowWax, BrowThread, BrowTweeze, LipWax, ChinWax, FaceWax];
const TINTS: [Treatment; 3] = [BrowTint, BrowHenna, LashTint];
const SETS: [Treatment; 2] = [BrowLamination, LashLift];

fn catalogue() -> &'static Catalogue {
    static CATALOGUE: LazyLock<Catalogue> =
        LazyLock::new(|| Content::built_in().unwrap().catalogue);
    &CATALOGUE
}

fn entry(treatment: Treatment) -> TreatmentEntry {
    catalogue().treatments[&treatment].clone()
}

fn rule(treatment: Treatment, kind: CautionKind) -> CautionRule {
    let entry = entry(treatment);
    let rule = entry.cautions.iter().find(|rule| rule.kind == kind);
    rule.unwrap_or_else(|| panic!("{treatment} has no caution {kind}"))
        .clone()
}

/// Every number of hours that a rule can come to where no skin was lifted.
fn hours(rule: &CautionRule) -> Vec<u32> {
    let with = rule.hours_with.iter();
    let with = with.filter(|(finding, _)| **finding != Finding::SkinLifted);
    std::iter::once(rule.hours)
        .chain(with.map(|(_, hours)| *hours))
        .collect()
}

/// Hours of these kinds stay within `least` to `most` for each of these treatments.
fn within(treatments: &[Treatment], kinds: &[CautionKind], least: u32, most: u32) {
    for treatment in treatments {
        for kind in kinds {
            for given in hours(&rule(*treatment, *kind)) {
                assert!(
                    (least..=most).contains(&given),
                    "{treatment}, {kind}: {given} h"
                );
            }
        }
    }
}

/// Provincial Health Services Authority (British Columbia): no tanning for 24 h after waxing, and 24 h before.
#[test]
fn no_sun_for_a_day_on_either_side_of_a_wax() {
    for treatment in WAXES {
        let sun = rule(treatment, Sun);
        assert!(sun.hours >= 24 && sun.least_hours == 24, "{treatment}");
        let before = entry(treatment).before_next;
        let tanning = before.iter().find(|rule| rule.id == "no_tanning").unwrap();
        assert_eq!(
            (tanning.lead, tanning.grade),
            (Lead::Hours(24), Grade::RegulatorOrHealthService),
            "{treatment}"
        );
    }
}

/// American Academy of Dermatology: no waxing, eyebrows included, during isotretinoin and for 6 months after.
#[test]
fn every_wax_asks_about_retinoid_tablets_of_the_last_six_months() {
    for treatment in WAXES {
        let before = entry(treatment).before_next;
        let oral = before
            .iter()
            .find(|rule| rule.id == "oral_retinoid")
            .unwrap();
        assert_eq!(
            (oral.lead, oral.grade),
            (Lead::Months(6), Grade::RegulatorOrHealthService),
            "{treatment}"
        );
    }
}

/// Day, textbook of questions and answers: a retinoid on the face is stopped 5 to 7 days before waxing and for 2 days
/// after. American Academy of Dermatology 2016: 2 to 5 days before. The longest of them is asked for.
#[test]
fn a_retinoid_on_the_skin_is_stopped_as_long_as_the_longest_source_says() {
    for treatment in WAXES {
        let before = entry(treatment).before_next;
        let stopped = before
            .iter()
            .find(|rule| rule.id == "topical_retinoid")
            .unwrap();
        assert_eq!(
            (stopped.lead, stopped.grade),
            (Lead::Days(7), Grade::StudyOrTextbook),
            "{treatment}"
        );
        assert!(rule(treatment, Actives).hours >= 2 * 24, "{treatment}");
    }
}

/// Common practice, no source: heat and hard exercise 24 to 48 h after hair was taken out; pool and hot tub 24 to 48 h,
/// make-up 12 to 48 h, hands off for 24 h; acids, retinoids and scrubs 48 h to 7 days, 3 days when mild and 7 when strong.
#[test]
fn hours_after_hair_was_taken_out() {
    within(&REMOVALS, &[Heat, Exercise, Swimming], 24, 48);
    within(&REMOVALS, &[MakeUp], 12, 48);
    within(&REMOVALS, &[Touching], 24, 24);
    within(&REMOVALS, &[Actives], 48, 168);
    within(
        &[BrowWax, BrowThread, LipWax, ChinWax, FaceWax],
        &[Exfoliation],
        48,
        168,
    );
    for treatment in WAXES {
        let actives = rule(treatment, Actives);
        assert_eq!(actives.hours, 72, "{treatment}: mild");
        for (finding, hours) in actives.hours_with {
            assert_eq!(hours, 168, "{treatment}: {finding} is strong");
        }
    }
}

/// Common practice, no source: after a lift or lamination no water, steam, oil, mascara, rubbing or sleeping face down
/// for 24 (24 to 48) h; after a tint no water, oily cleanser or steam for 12 to 24 h; eye make-up 24 to 72 h after a
/// lash lift or tint.
#[test]
fn hours_after_hair_was_coloured_or_set() {
    within(&SETS, &[Water, Steam, Oil, Touching], 24, 48);
    within(&[BrowLamination], &[MakeUp], 24, 48);
    within(&TINTS, &[Water, Steam, Oil], 12, 24);
    within(&[LashLift, LashTint], &[MakeUp], 24, 72);
}

/// Wound care, from memory: where the top of the skin came off it closes in 3 to 7 days, and strong skin products are left
/// off until then. Whatever may get into it waits for the longer time.
#[test]
fn lifted_skin_is_left_alone_until_it_has_closed() {
    for treatment in REMOVALS {
        for rule in &entry(treatment).cautions {
            let waits = [Actives, Exfoliation, MakeUp, Swimming, Sun].contains(&rule.kind);
            let lifted = rule.hours_with.get(&Finding::SkinLifted).copied();
            if waits {
                assert_eq!(lifted, Some(7 * 24), "{treatment}, {}", rule.kind);
            }
        }
    }
}

/// Common practice, no source: contact lenses out for 24 to 72 h after a lash lift or tint.
#[test]
fn contact_lenses_stay_out_only_for_those_who_wear_them() {
    for treatment in [LashLift, LashTint] {
        let lenses = rule(treatment, ContactLenses);
        assert_eq!(lenses.only_with, [Finding::ContactLenses]);
        within(&[treatment], &[ContactLenses], 24, 72);
    }
}

/// NHS, contact dermatitis: irritated skin shows it at once or within 48 h. Handbooks, from memory: redness for 24 to
/// 48 h. No other time was found: two hours for a sting or watering, a week for dryness are our own careful choices.
#[test]
fn what_is_ordinary_ends() {
    let ordinary: Vec<(&str, u32)> = catalogue()
        .after
        .ordinary
        .iter()
        .map(|rule| (rule.id.as_str(), rule.hours))
        .collect();
    let expected = [
        ("pink_and_warm", 48),
        ("dry_and_flaky", 7 * 24),
        ("stinging_that_stopped", 2),
        ("watering_eyes", 2),
    ];
    assert_eq!(ordinary, expected);
}

/// NHS, red eye; NHS, hives; HSE Ireland: pain or changed sight, swelling, and an itch or rash that comes later are never
/// part of settling after something was put on near the eyes.
#[test]
fn eyes_swelling_and_late_itching_are_never_ordinary() {
    for treatment in TINTS.iter().chain(&SETS).chain([&LashExtensions]) {
        for id in ["eye", "swelling", "late_itch"] {
            let rules = &catalogue().after.not_ordinary;
            let rule = rules.iter().find(|rule| rule.id == id).unwrap();
            assert!(rule.treatments.contains(treatment), "{treatment}: {id}");
        }
    }
}

/// Nobody measured the hours: they are graded so, and a study beside them does not lift the grade.
#[test]
fn hours_claim_no_more_than_common_practice() {
    for (treatment, entry) in &catalogue().treatments {
        for rule in &entry.cautions {
            assert_eq!(
                rule.grade,
                Grade::CommonPractice,
                "{treatment}, {}",
                rule.kind
            );
            assert_eq!(
                rule.sources[0], "common_practice",
                "{treatment}, {}",
                rule.kind
            );
        }
    }
}

/// Common practice, no source: brow hair 4 (3 to 6) weeks, lip and chin 2 to 4, tint 4 to 6, lamination and lift 6 to 8
/// and never sooner than 6, extensions 2 to 3. healthy-women.net: waxed facial hair 3 to 6 weeks.
#[test]
fn weeks_between_two_visits() {
    for (treatments, earliest, best, latest) in [
        (&[BrowWax, BrowThread, BrowTweeze, FaceWax][..], 3, 3..=6, 6),
        (&[LipWax, ChinWax], 2, 2..=4, 4),
        (&TINTS, 4, 4..=6, 6),
        (&SETS, 6, 6..=8, 8),
        (&[LashExtensions], 2, 2..=3, 3),
    ] {
        for treatment in treatments {
            let interval = entry(*treatment).interval;
            assert_eq!(
                (interval.earliest_days, interval.latest_days),
                (earliest * 7, latest * 7),
                "{treatment}"
            );
            assert!(best.contains(&(interval.best_days / 7)), "{treatment}");
            assert_eq!(interval.grade, Grade::CommonPractice, "{treatment}");
        }
    }
}

/// Provincial Health Services Authority: 2 to 3 mm for wax; a handbook of 2009: 1/8 inch = 3.2 mm. Common practice, no
/// source: thread 1 to 2 mm, tweezers 0.5 to 1 mm. The side of the face is left out: its hair does not grow so long.
#[test]
fn lengths_that_can_be_held() {
    for (treatment, least, most) in [
        (BrowWax, 2.0, 3.2),
        (LipWax, 2.0, 3.2),
        (ChinWax, 2.0, 3.2),
        (BrowThread, 1.0, 2.0),
        (BrowTweeze, 0.5, 1.0),
    ] {
        let removal = entry(treatment).removal.expect("hair is taken out");
        let length = removal.graspable_mm.value;
        assert!((least..=most).contains(&length), "{treatment}: {length} mm");
    }
    let side = entry(FaceWax).removal.expect("hair is taken out");
    let hair = &catalogue().hair[&entry(FaceWax).area];
    let longest = hair.speed_mm_per_day.value * hair.anagen_days.value - hair.depth_mm.value;
    assert!(
        side.graspable_mm.value < longest,
        "a wax that waits for {} mm waits for ever: {longest} mm",
        side.graspable_mm.value
    );
}

/// No count of broken hairs was found anywhere: each share is an assumption between 0 and 30 %, and tweezers, which
/// pull hair by hair along its growth, break no more than wax, wax no more than a thread.
#[test]
fn broken_hairs_are_assumed_and_say_so() {
    let share = |treatment| {
        let removal = entry(treatment).removal.expect("hair is taken out");
        assert_eq!(removal.broken_fraction.source, "assumption", "{treatment}");
        assert!((0.0..=0.3).contains(&removal.broken_fraction.value));
        removal.broken_fraction.value
    };
    for treatment in REMOVALS {
        share(treatment);
    }
    assert!(share(BrowTweeze) <= share(BrowWax) && share(BrowWax) <= share(BrowThread));
}

/// Makers of hair colour, usual direction: a skin test 48 h before. Common practice, no source: before lift and
/// lamination too (24 to 48 h), and before extensions.
#[test]
fn a_skin_test_two_days_before_whatever_is_put_on_hair() {
    let tested = TINTS.iter().chain(&SETS).chain([&LashExtensions]);
    for treatment in tested {
        let before = entry(*treatment).before_next;
        let test = before.iter().find(|rule| rule.id == "patch_test").unwrap();
        assert_eq!(test.lead, Lead::Hours(48), "{treatment}");
    }
}

/// When to look at a skin test. 24 h: quoted for beauty treatments by the trade, no source. 48 h: makers of hair colour.
/// 72 h and day 7: clinics read their own tests after 48 h, 72 or 96 h, and on day 7 (Sarma 2009, Indian J Dermatol 54:56);
/// of 26 volunteers followed for 28 days none reacted anew after day 7 (Contact Dermatitis 2019). Contact reactions of
/// people who had one before begin after 24 to 72 h (Medscape, contact dermatitis): within the times to look.
#[test]
fn a_skin_test_is_looked_at_while_reactions_begin() {
    let rules = &catalogue().patch_test;
    assert_eq!(rules.look_hours(), [24, 48, 72]);
    let sources: Vec<&str> = rules
        .looks
        .iter()
        .map(|look| look.source.as_str())
        .collect();
    assert_eq!(
        sources,
        ["common_practice", "industry_patch_test", "sarma_2009"]
    );
    assert_eq!(rules.days_to_watch(), Some(7));
    // The treatment comes no sooner than a look that its own rule asks for.
    let tested = catalogue().tested_before();
    assert_eq!(
        tested,
        [
            BrowTint,
            BrowHenna,
            BrowLamination,
            LashLift,
            LashTint,
            LashExtensions
        ]
    );
    for treatment in tested {
        let before = entry(treatment).before_next;
        let test = before.iter().find(|rule| rule.id == "patch_test").unwrap();
        assert!(matches!(test.lead, Lead::Hours(hours) if rules.look_hours().contains(&hours)));
    }
}
