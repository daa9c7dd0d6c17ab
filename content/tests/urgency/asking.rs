//! Which question comes next: none that cannot change anything, the most urgent first, and an end.

use proptest::{prelude::*, sample::select};
use shared_types::{
    urgency::{Answer, Answers, Field, Level, Next, Question, Scale, judge, next_question},
    visit::Treatment,
};

use crate::support::{
    HOUR, RULES, answers, asked, began, level, makes, most, nothing, times, within,
};

/// At checkout, so many hours after the visit, nothing answered yet.
fn begin(hours: u32) -> Answers {
    Answers::default().with(Field::HoursSinceVisit, Answer::At(hours * HOUR))
}

/// The time to choose for what began then.
fn chosen(truth: &Answers) -> Option<String> {
    let (Answer::At(visit), Answer::At(onset)) = (
        truth.get(Field::HoursSinceVisit),
        truth.get(Field::OnsetHours),
    ) else {
        return None;
    };
    let mut offered = times(visit).into_iter();
    offered.find(|time| within(time).contains(&onset))
}

/// How somebody for whom `truth` holds answers: all signs that are there, then none of the rest.
fn honest(truth: &Answers, next: &Next<'_>) -> Vec<String> {
    let one = match next.fields.as_slice() {
        [Field::EyeTrouble] => {
            let any = next.question.none_means.iter();
            let any = any.clone().any(|field| truth.get(*field) != Answer::At(0));
            if any { "yes" } else { "no" }.to_owned()
        }
        [Field::OnsetHours] => chosen(truth).expect("a true answer among those offered"),
        [field] if next.question.fields.len() == 1 => {
            truth.text(*field).unwrap_or("not_sure".to_owned())
        }
        several => {
            let has = |field: &&Field| truth.get(**field) == Answer::At(1);
            let there = several.iter().filter(has);
            let mut ticked: Vec<_> = there.map(|field| field.term().to_owned()).collect();
            ticked.push("none".to_owned());
            return ticked;
        }
    };
    vec![one]
}

/// Asks until there is no more to ask; the questions in order and the answers.
fn interview(begin: Answers, truth: &Answers) -> (Vec<&'static str>, Answers) {
    let (mut answers, mut questions) = (begin, Vec::new());
    while let Some(next) = next_question(&RULES, &answers) {
        let before = answers.clone();
        let offers = next.offers();
        assert_eq!(offers.last().unwrap().given, "not_sure");
        for given in honest(truth, &next) {
            let offered = offers.iter().any(|offer| offer.given == given);
            assert!(offered, "{}: {given}", next.question.id);
            answers.answer(next.question, &given).unwrap();
        }
        assert_ne!(
            answers, before,
            "{}: the answer changed nothing",
            next.question.id
        );
        questions.push(next.question.id.as_str());
        assert!(questions.len() < 60, "no end: {questions:?}");
    }
    (questions, answers)
}

#[test]
fn an_emergency_is_reached_within_eight_questions() {
    for rule in RULES
        .rules
        .iter()
        .filter(|rule| rule.level == Level::Emergency)
    {
        for row in &rule.when {
            let truth = row
                .iter()
                .fold(nothing(40), |truth, fact| match fact.field {
                    Field::HoursSinceVisit => truth.with(fact.field, Answer::At(fact.most)),
                    _ => makes(truth, fact),
                });
            let visit = truth.get(Field::HoursSinceVisit);
            let (asked, answers) = interview(begin(0).with(Field::HoursSinceVisit, visit), &truth);
            assert_eq!(
                level(&answers),
                Level::Emergency,
                "{} {row:?}: {asked:?}",
                rule.id
            );
            assert!(asked.len() <= 8, "{} {row:?}: {asked:?}", rule.id);
        }
    }
}

#[test]
fn eyes_come_first_and_rinsing_before_all() {
    let first = next_question(&RULES, &begin(1)).unwrap();
    assert_eq!(first.question.id, "product_in_eye");
    let (asked, _) = interview(begin(1), &nothing(1));
    assert_eq!(asked[..3], ["product_in_eye", "eye_trouble", "breathing"]);
    let eye = nothing(1).with(Field::EyeWatering, Answer::At(1));
    let (asked, answers) = interview(begin(1), &eye);
    assert_eq!(
        asked[..5],
        [
            "product_in_eye",
            "eye_trouble",
            "sight",
            "eye_look",
            "eye_state"
        ]
    );
    assert_eq!(level(&answers), Level::Studio);
}

#[test]
fn nobody_in_an_emergency_is_kept_with_questions() {
    let hard_to_breathe = begin(1).with(Field::Airway, Answer::At(1));
    assert_eq!(next_question(&RULES, &hard_to_breathe), None);
}

#[test]
fn an_ordinary_day_takes_few_questions() {
    let pink = nothing(3).with(Field::Redness, Answer::At(1));
    let (asked, answers) = interview(begin(3), &pink);
    assert_eq!(level(&answers), Level::Expected, "{asked:?}");
    assert!(asked.len() <= 14, "{}: {asked:?}", asked.len());
}

/// At checkout and weeks later: a page kept from the first minute offers them as the clock goes (`Question::begun`).
#[test]
fn when_it_began_has_a_true_answer_at_any_time() {
    for visit in 0..=600 {
        let offered = times(visit * HOUR);
        for onset in 0..=visit {
            let has = |time: &String| within(time).contains(&(onset * HOUR));
            assert!(offered.iter().any(has), "{onset} of {visit}: {offered:?}");
        }
        let to_come = |time: &&String| *within(time).start() > visit * HOUR;
        assert_eq!(offered.iter().find(to_come), None, "{visit}");
    }
    assert_eq!(times(5 * HOUR), ["0", "0-6"]);
    assert_eq!(times(40 * HOUR).last().unwrap(), "24-48");
    assert_eq!(times(285 * HOUR).last().unwrap(), "72-");
}

/// Raised bumps count from the visit until somebody says that they began later.
#[test]
fn when_it_began_is_asked_where_that_makes_it_milder() {
    let late = nothing(61)
        .with(Field::Hives, Answer::At(1))
        .with(Field::OnsetHours, Answer::At(40 * HOUR));
    let unsaid = late.clone().with(Field::OnsetHours, Answer::Open);
    assert_eq!(level(&unsaid), Level::SameDay);
    let (asked, answers) = interview(begin(61), &late);
    assert!(asked.contains(&"onset"), "{asked:?}");
    assert_eq!(level(&answers), Level::Studio);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    /// Whatever is true, the questions lead to the level and advice that all answers together would, or to an emergency.
    #[test]
    fn the_questions_are_enough(
        signs in prop::collection::vec((select(asked()), 0..=10_u32), 0..5),
        hours in 0..300_u32,
        done in prop::collection::vec(select(Treatment::ALL), 0..3),
    ) {
        let truth = signs.into_iter().fold(nothing(hours), |truth, (field, place)| {
            let place = match field.scale() {
                Scale::Hours => (place * hours / 10) * HOUR,
                _ => place.min(most(field)),
            };
            truth.with(field, Answer::At(place))
        });
        let truth = match truth.get(Field::OnsetHours) {
            Answer::Open => truth.with(Field::OnsetHours, Answer::At(0)),
            _ => truth,
        };
        // Whoever has no blisters has none near an eye; whoever has something with an eye says so.
        let truth = match truth.get(Field::Blisters) {
            Answer::At(0) => truth.with(Field::BlistersNearEye, Answer::At(0)),
            _ => truth,
        };
        let gate = RULES.questions.iter().find(|one| one.id == "eye_trouble").unwrap();
        let any = gate.none_means.iter().any(|field| truth.get(*field) != Answer::At(0));
        let truth = truth.with(Field::EyeTrouble, Answer::At(u32::from(any)));
        let (mut begin, mut truth) = (begin(hours), truth);
        begin.treatments.clone_from(&done);
        truth.treatments = done;
        let (asked, answers) = interview(begin, &truth);
        let told = judge(&RULES, &answers);
        prop_assert!(told.level >= level(&truth), "{:?} {:?}", asked, truth);
        // A time that is not known to the minute counts as its more urgent end.
        let chosen = chosen(&truth).unwrap();
        let truth = began(truth, &chosen);
        let all = judge(&RULES, &truth);
        prop_assert_eq!(told.level, all.level, "{:?} {:?}", asked, truth);
        if all.level != Level::Emergency {
            prop_assert_eq!(told.advice, all.advice, "{:?}", asked);
        }
    }

    /// By brute force over the open fields of the question's neighbours: every sign offered can change level or advice.
    #[test]
    fn no_question_is_useless(answers in answers()) {
        if let Some(next) = next_question(&RULES, &answers) {
            for field in &next.fields {
                prop_assert!(can_change(&answers, next.question, *field), "{}: {field}", next.question.id);
            }
            prop_assert!(next.left >= 1);
        } else if level(&answers) < Level::Emergency {
            // And the other way round: nothing that is still open can change anything, alone or two together.
            let now = outcome(&absent(&answers));
            for (one, place) in choices(&answers) {
                let with = answers.clone().with(one, Answer::At(place));
                prop_assert_eq!(&outcome(&absent(&with)), &now, "{}", one);
                for (two, place) in choices(&with) {
                    let both = with.clone().with(two, Answer::At(place));
                    prop_assert_eq!(&outcome(&absent(&both)), &now, "{} {}", one, two);
                }
            }
        }
    }
}

fn outcome(answers: &Answers) -> (Level, Vec<&'static str>) {
    let verdict = judge(&RULES, answers);
    (verdict.level, verdict.advice)
}

/// What is open answered with "no".
fn absent(answers: &Answers) -> Answers {
    asked().into_iter().fold(answers.clone(), |answers, field| {
        if answers.get(field) == Answer::Open && field.scale() != Scale::Hours {
            answers.with(field, Answer::At(0))
        } else {
            answers
        }
    })
}

/// Every answer to every open field but the gate, which by itself only spares questions.
fn choices(answers: &Answers) -> Vec<(Field, u32)> {
    let open = asked()
        .into_iter()
        .filter(|field| answers.get(*field) == Answer::Open && *field != Field::EyeTrouble);
    let places = |field: Field| match (field.scale(), answers.get(Field::HoursSinceVisit)) {
        (Scale::Hours, Answer::At(visit)) => vec![0, visit / 2, visit],
        (Scale::Hours, _) => vec![],
        _ => (0..=most(field)).collect::<Vec<_>>(),
    };
    open.flat_map(|field| places(field).into_iter().map(move |place| (field, place)))
        .collect()
}

/// Whether some answers to the other open fields make this one matter: all single ones and all pairs are tried.
fn can_change(answers: &Answers, question: &Question, field: Field) -> bool {
    let fields: Vec<Field> = std::iter::once(field)
        .chain(question.none_means.iter().copied())
        .collect();
    let differs = |rest: &Answers| {
        fields.iter().any(|field| {
            if answers.get(*field) != Answer::Open || *field == Field::EyeTrouble {
                return false;
            }
            let places = choices(answers).into_iter().filter(|(of, _)| of == field);
            let mut outcomes: Vec<_> = places
                .map(|(_, place)| outcome(&absent(&rest.clone().with(*field, Answer::At(place)))))
                .collect();
            outcomes.push(outcome(&absent(rest)));
            outcomes.iter().any(|one| *one != outcomes[0])
        })
    };
    differs(answers)
        || choices(answers).into_iter().any(|(one, place)| {
            let with = answers.clone().with(one, Answer::At(place));
            differs(&with)
        })
}
