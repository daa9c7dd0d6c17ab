//! What holds for every set of answers.

use proptest::{prelude::*, sample::select};
use shared_types::{
    urgency::{Answer, Answers, Field, Level, judge, rinse_first},
    visit::Treatment,
};

use crate::support::{
    CONTENT, HOUR, RULES, answers, asked, began, level, makes, mild_answers, most, nothing, signs,
    times, within,
};

proptest! {
    #[test]
    fn one_sign_more_never_lowers_the_level(answers in answers(), field in select(signs()), place in 1..=10_u32) {
        let more = place.min(most(field));
        let Answer::At(before) = answers.get(field) else { return Ok(()) };
        prop_assume!(before < more);
        let after = answers.clone().with(field, Answer::At(more));
        prop_assert!(level(&after) >= level(&answers), "{field} from {before} to {more}: {answers:?}");
    }

    #[test]
    fn not_knowing_is_never_better_than_no(answers in answers(), field in select(signs())) {
        let no = answers.clone().with(field, Answer::At(0));
        let not_sure = answers.with(field, Answer::NotSure);
        prop_assert!(level(&not_sure) >= level(&no), "{field}: {not_sure:?}");
    }

    /// The gate before the questions about an eye is left out: whoever answered each of those has answered it.
    #[test]
    fn an_answer_taken_away_never_makes_it_ordinary(answers in answers(), field in select(asked())) {
        prop_assume!(field != Field::EyeTrouble && level(&answers) >= Level::Studio);
        let fewer = answers.clone().with(field, Answer::Open);
        prop_assert!(level(&fewer) >= Level::Studio, "{field}: {answers:?}");
    }

    /// A time that is not known to the minute counts as whichever of its ends is the more urgent.
    #[test]
    fn between_two_times_the_more_urgent_counts(
        answers in mild_answers(),
        (sign, place) in select(vec![(Field::Hives, 1), (Field::Swelling, 3), (Field::Itch, 1)]),
        hours in 0..150_u32,
        which in 0..7_usize,
    ) {
        let visit = hours * HOUR;
        let answers = answers
            .with(Field::HoursSinceVisit, Answer::At(visit))
            .with(sign, Answer::At(place));
        let offered = times(visit);
        let time = &offered[which.min(offered.len() - 1)];
        let range = within(time);
        let at = |minutes: u32| level(&answers.clone().with(Field::OnsetHours, Answer::At(minutes.min(visit))));
        let ends = at(*range.start()).max(at(*range.end()));
        let (from, to) = (*range.start(), *range.end().min(&visit));
        let middle = (0..=10).map(|tenth| at(from + (to - from) * tenth / 10)).max().unwrap();
        prop_assert_eq!(level(&began(answers.clone(), time)), ends, "{} {:?}", time, answers);
        prop_assert!(middle <= ends);
    }

    #[test]
    fn redness_alone_is_never_more_than_for_the_studio(redness in 0..=4_u32, hours in 0..800_u32, trend in 0..=2_u32) {
        let alone = nothing(hours)
            .with(Field::Redness, Answer::At(redness))
            .with(Field::Trend, Answer::At(trend));
        prop_assert!(level(&alone) <= Level::Studio);
        let bare = Answers::default().with(Field::Redness, Answer::At(redness));
        prop_assert_eq!(level(&bare), Level::Studio);
    }

    #[test]
    fn the_order_of_answers_does_not_matter(answers in answers(), turn in 0..40_usize) {
        let given = serde_json::to_value(&answers).unwrap();
        let mut fields: Vec<_> = given.as_object().unwrap().iter().collect();
        prop_assume!(!fields.is_empty());
        let turn = turn % fields.len();
        fields.rotate_left(turn);
        let texts: Vec<String> = fields.iter().map(|(name, value)| format!("\"{name}\":{value}")).collect();
        let again: Result<Answers, _> = serde_json::from_str(&format!("{{{}}}", texts.join(",")));
        match (again, answers.get(Field::OnsetHours), answers.get(Field::HoursSinceVisit)) {
            (Ok(again), ..) => prop_assert_eq!(again, answers),
            (Err(_), Answer::At(onset), Answer::At(visit)) => prop_assert!(onset > visit),
            (Err(error), ..) => prop_assert!(false, "{error}"),
        }
    }

    #[test]
    fn whenever_product_may_be_in_the_eye_rinsing_is_told(answers in answers()) {
        let verdict = judge(&RULES, &answers);
        if rinse_first(&answers) {
            prop_assert!(verdict.advice.contains(&"rinse"), "{verdict:?}");
        }
    }

    #[test]
    fn every_level_says_what_to_do_when_it_gets_worse(answers in answers()) {
        let verdict = judge(&RULES, &answers);
        prop_assert!(verdict.advice.contains(&"worse"));
        prop_assert!(verdict.advice.len() > 1);
        let once: std::collections::BTreeSet<_> = verdict.advice.iter().collect();
        prop_assert_eq!(once.len(), verdict.advice.len());
        let mild = verdict.level == Level::Expected;
        prop_assert_eq!(verdict.rules.is_empty(), mild);
        prop_assert_eq!(verdict.advice.contains(&"ordinary"), mild);
        let urgent = ["call_now", "then_call", "go_now"];
        let ways = verdict.advice.iter().filter(|one| urgent.contains(*one)).count();
        prop_assert_eq!(ways, usize::from(verdict.level == Level::Emergency), "{:?}", verdict);
    }

    #[test]
    fn nothing_not_sure_or_unasked_is_ordinary(answers in mild_answers()) {
        let unknown = signs().into_iter().any(|field| answers.get(field) == Answer::NotSure);
        if unknown && level(&answers) == Level::Expected {
            // Only where no answer at all could have changed anything.
            for field in signs() {
                if answers.get(field) == Answer::NotSure {
                    for place in 0..=most(field) {
                        let sure = answers.clone().with(field, Answer::At(place));
                        prop_assert_eq!(level(&sure), Level::Expected, "{}", field);
                    }
                }
            }
        }
    }
}

#[test]
fn every_danger_sign_left_out_or_not_sure_is_not_ordinary() {
    let rules = RULES
        .rules
        .iter()
        .filter(|rule| rule.level >= Level::SameDay);
    let alone = rules
        .flat_map(|rule| rule.when.iter())
        .filter(|row| row.len() == 1);
    let mut tried = 0;
    for fact in alone.flatten() {
        for answer in [Answer::Open, Answer::NotSure] {
            let answers = nothing(3).with(fact.field, answer);
            let verdict = judge(&RULES, &answers);
            assert_eq!(
                (verdict.level, verdict.rules),
                (Level::Studio, vec!["T10"]),
                "{}",
                fact.field
            );
            tried += 1;
        }
    }
    assert!(tried > 30, "{tried}");
    assert_eq!(level(&nothing(3)), Level::Expected);
}

#[test]
fn every_emergency_rule_alone_is_an_emergency_after_every_treatment() {
    let mut tried = 0;
    for rule in RULES
        .rules
        .iter()
        .filter(|rule| rule.level == Level::Emergency)
    {
        for row in &rule.when {
            for treatment in Treatment::ALL {
                let mut answers = row
                    .iter()
                    .fold(nothing(40), |answers, fact| match fact.field {
                        Field::HoursSinceVisit => answers.with(fact.field, Answer::At(fact.most)),
                        _ => makes(answers, fact),
                    });
                answers.treatments = vec![*treatment];
                let verdict = judge(&RULES, &answers);
                assert_eq!(verdict.level, Level::Emergency, "{} {row:?}", rule.id);
                assert!(
                    verdict.rules.contains(&rule.id.as_str()),
                    "{} {row:?}",
                    rule.id
                );
                tried += 1;
            }
        }
    }
    assert!(tried > 200, "{tried}");
}

#[test]
fn the_rules_are_these() {
    let ids: Vec<&str> = RULES.rules.iter().map(|rule| rule.id.as_str()).collect();
    let mut expected: Vec<String> = (1..=9).map(|n| format!("E{n}")).collect();
    expected.extend((1..=9).map(|n| format!("S{n}")));
    expected.extend((1..=16).map(|n| format!("T{n}")));
    expected.extend((1..=2).map(|n| format!("M{n}")));
    assert_eq!(ids, expected);
}

/// Three weeks: a first reaction may take so long (Fisher's Contact Dermatitis, from memory).
#[test]
fn after_three_weeks_a_clinician_as_well() {
    let day = 24;
    assert_eq!(level(&nothing(21 * day)), Level::Expected);
    let late = nothing(21 * day).with(Field::HoursSinceVisit, Answer::At(21 * day * HOUR + 1));
    let verdict = judge(&RULES, &late);
    assert_eq!((verdict.level, verdict.rules), (Level::Studio, vec!["T14"]));
    assert!(verdict.advice.contains(&"see_clinician"));
}

/// Our own reading: a face that began to swell within a day counts as rapid, however long ago the visit was.
#[test]
fn a_swollen_face_by_when_it_began() {
    let face = |hours, onset| {
        let answers = nothing(hours).with(Field::Swelling, Answer::At(3));
        level(&answers.with(Field::OnsetHours, onset))
    };
    assert_eq!(face(24, Answer::Open), Level::Emergency);
    assert_eq!(face(40, Answer::At(10 * HOUR)), Level::SameDay);
    assert_eq!(face(40, Answer::At(38 * HOUR)), Level::Emergency);
    assert_eq!(face(40, Answer::Open), Level::SameDay);
    assert_eq!(
        face(40, Answer::NotSure),
        Level::Emergency,
        "not sure is taken at the worse"
    );
    // An hour ago, twelve days after the visit: of what is offered only "later" is true.
    let later = nothing(285).with(Field::Swelling, Answer::At(3));
    assert_eq!(level(&began(later.clone(), "72-")), Level::Emergency);
    assert_eq!(level(&began(later, "48-72")), Level::SameDay);
}

/// NHS, hives: no better after two days. Of bumps that began between 12 and 24 h after the visit nobody knows at 71 h whether
/// they are two days old: they are taken to be.
#[test]
fn bumps_by_when_they_began() {
    let bumps = |hours, time: &str| {
        let answers = nothing(hours).with(Field::Hives, Answer::At(1));
        judge(&RULES, &began(answers, time)).rules
    };
    assert_eq!(bumps(71, "13"), ["S7", "T2"]);
    assert_eq!(bumps(71, "12-24"), ["S7", "T2"]);
    assert_eq!(bumps(71, "24-48"), ["T2"]);
    assert_eq!(bumps(285, "72-"), ["S7", "T2"]);
}

/// Our own choice: what gets worse is not called ordinary, whatever it is, also where somebody says so only later.
#[test]
fn what_gets_worse_is_never_ordinary() {
    for treatment in Treatment::ALL {
        let mut worse = nothing(3).with(Field::Trend, Answer::At(2));
        worse.treatments = vec![*treatment];
        let verdict = judge(&RULES, &worse);
        assert_eq!((verdict.level, verdict.rules), (Level::Studio, vec!["T16"]));
        assert!(
            !verdict.advice.contains(&"ordinary"),
            "{:?}",
            verdict.advice
        );
        let before = worse.with(Field::Trend, Answer::At(0));
        assert_eq!(level(&before), Level::Expected);
        let unasked = before.with(Field::Trend, Answer::Open);
        assert_eq!(judge(&RULES, &unasked).rules, ["T10"]);
    }
    let more = nothing(3).with(Field::Itch, Answer::At(1));
    let more = more.with(Field::Trend, Answer::At(2));
    assert_eq!(judge(&RULES, &more).rules, ["T9"]);
}

/// Section 9's T10: a danger sign that nobody knows about is told as long as nothing more urgent is, whatever else holds.
#[test]
fn not_sure_about_danger_is_told_beside_milder_signs() {
    let itches = nothing(3).with(Field::Itch, Answer::At(5));
    assert_eq!(judge(&RULES, &itches).rules, ["T8"]);
    for answer in [Answer::NotSure, Answer::Open] {
        let unsure = itches.clone().with(Field::Airway, answer);
        let verdict = judge(&RULES, &unsure);
        assert_eq!(
            (verdict.level, verdict.rules),
            (Level::Studio, vec!["T8", "T10"])
        );
        assert!(verdict.advice.contains(&"not_sure"), "{:?}", verdict.advice);
        let puffy = unsure.with(Field::Swelling, Answer::At(2));
        assert_eq!(judge(&RULES, &puffy).rules, ["S2", "T8"]);
    }
    let bare = Answers::default().with(Field::Itch, Answer::At(5));
    assert_eq!(judge(&RULES, &bare).rules, ["T8", "T10"]);
    let unsure = itches.with(Field::Airway, Answer::NotSure);
    let ids: Vec<String> = judge(&RULES, &unsure)
        .rules
        .iter()
        .map(|id| (*id).to_owned())
        .collect();
    let named = shared_types::urgency::reasons(&RULES, &ids, &unsure);
    assert_eq!(named, [Field::Itch, Field::Airway]);
}

/// Ann Dermatol 2018;30(3): of those who reacted to a hair dye most went on using it. Wherever a product may have been the
/// cause, whoever is in an emergency is told not to use it again.
#[test]
fn whoever_reacts_badly_does_not_use_the_product_again() {
    for id in ["E1", "E2", "E3", "E4", "E9"] {
        let rule = RULES.rules.iter().find(|rule| rule.id == id).unwrap();
        for row in &rule.when {
            let told = judge(&RULES, &row.iter().fold(nothing(1), makes)).advice;
            assert!(told.contains(&"stop_product"), "{id}: {told:?}");
        }
    }
}

#[test]
fn itching_that_begins_late_after_colour_is_never_ordinary() {
    let itch = |treatment, onset| {
        let mut answers = nothing(30).with(Field::Itch, Answer::At(1));
        answers.set(Field::OnsetHours, onset);
        answers.treatments = vec![treatment];
        judge(&RULES, &answers).rules
    };
    assert_eq!(itch(Treatment::BrowTint, Answer::At(12 * HOUR)), ["T12"]);
    assert!(itch(Treatment::BrowTint, Answer::At(12 * HOUR - 1)).is_empty());
    assert_eq!(itch(Treatment::BrowTint, Answer::NotSure), ["T10"]);
    assert!(itch(Treatment::BrowWax, Answer::At(12 * HOUR)).is_empty());
}

#[test]
fn stinging_after_a_tint_is_ordinary_for_shorter_than_after_wax() {
    let pain = |treatments: &[Treatment], hours| {
        let mut answers = nothing(hours).with(Field::Pain, Answer::At(1));
        answers.treatments = treatments.to_vec();
        judge(&RULES, &answers).rules
    };
    let (tint, wax) = (Treatment::BrowTint, Treatment::BrowWax);
    assert!(pain(&[tint], 2).is_empty());
    assert_eq!(pain(&[tint], 3), ["T13"]);
    assert!(pain(&[tint, wax], 3).is_empty());
}

#[test]
fn every_rule_can_come_to_be() {
    for rule in &RULES.rules {
        let hit = rule.when.iter().any(|row| {
            let begin = if rule.id == "T14" { 600 } else { 60 };
            let mut answers = row.iter().fold(nothing(begin), makes);
            answers.treatments = rule.after.clone();
            judge(&RULES, &answers).rules.contains(&rule.id.as_str())
        });
        assert!(hit, "{}", rule.id);
    }
    assert!(CONTENT.catalogue.urgency.compile().1.is_empty());
}
