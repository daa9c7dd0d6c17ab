//! Answers to try the shipped rules with.

use std::sync::LazyLock;

use content::Content;
use proptest::{prelude::*, sample::select};
use shared_types::{
    urgency::{Answer, Answers, Fact, Field, Level, Question, Rules, Scale, judge},
    visit::Treatment,
};

pub static CONTENT: LazyLock<Content> = LazyLock::new(|| Content::built_in().unwrap());
pub static RULES: LazyLock<Rules> = LazyLock::new(|| CONTENT.catalogue.urgency.compiled());

pub const HOUR: u32 = 60;

/// Fields that somebody is asked for; the time since the visit is known.
pub fn asked() -> Vec<Field> {
    let mut fields: Vec<Field> = RULES
        .questions
        .iter()
        .flat_map(|question| question.fields.iter().copied())
        .collect();
    fields.sort();
    fields.dedup();
    fields
}

/// Signs: everything asked but the times.
pub fn signs() -> Vec<Field> {
    let fields = asked().into_iter();
    fields
        .filter(|field| field.scale() != Scale::Hours)
        .collect()
}

pub fn most(field: Field) -> u32 {
    match field.scale() {
        Scale::OneOf(terms) => terms.len() as u32 - 1,
        Scale::UpTo(most) => most,
        Scale::Hours => 30 * 24 * HOUR,
    }
}

/// Every question answered "no", so many hours after the visit.
pub fn nothing(hours: u32) -> Answers {
    let visit = Answer::At(hours * HOUR);
    let answers = Answers::default().with(Field::HoursSinceVisit, visit);
    signs()
        .into_iter()
        .fold(answers, |answers, field| answers.with(field, Answer::At(0)))
}

pub fn question(id: &str) -> &'static Question {
    RULES.questions.iter().find(|one| one.id == id).unwrap()
}

/// The times that are offered so long after the visit.
pub fn times(minutes: u32) -> Vec<String> {
    let onset = question("onset");
    let offers = onset.offers().into_iter().map(|offer| offer.given);
    let begun = onset.begun(minutes).zip(offers);
    begun
        .filter(|(begun, _)| *begun)
        .map(|(_, given)| given)
        .collect()
}

/// With a time as it is offered.
pub fn began(mut answers: Answers, time: &str) -> Answers {
    answers.put(Field::OnsetHours, time).unwrap();
    answers
}

/// The times within which that lies, in minutes from the visit.
pub fn within(time: &str) -> std::ops::RangeInclusive<u32> {
    let answers = began(Answers::default(), time);
    let Answer::At(to) = answers.get(Field::OnsetHours) else {
        panic!("{time}");
    };
    answers.begun_from().unwrap()..=to
}

/// What was done: mostly one thing or two.
fn done() -> impl Strategy<Value = Vec<Treatment>> {
    prop::collection::vec(select(Treatment::ALL), 0..3)
}

pub fn level(answers: &Answers) -> Level {
    judge(&RULES, answers).level
}

pub fn makes(answers: Answers, fact: &Fact) -> Answers {
    match (fact.field, answers.get(Field::HoursSinceVisit)) {
        (Field::HoursSinceOnset, Answer::At(visit)) => {
            answers.with(Field::OnsetHours, Answer::At(visit - fact.least))
        }
        (field, _) => answers.with(field, Answer::At(fact.least)),
    }
}

fn one(field: Field) -> impl Strategy<Value = Answer> {
    prop_oneof![
        2 => Just(Answer::Open),
        1 => Just(Answer::NotSure),
        6 => Just(Answer::At(0)),
        3 => (0..=most(field)).prop_map(Answer::At),
    ]
}

/// Any answers; many of them "no", so that mild levels come up as well.
pub fn any_answers() -> impl Strategy<Value = Answers> {
    let fields = asked();
    let each: Vec<_> = fields.iter().map(|field| one(*field)).collect();
    let visit = prop_oneof![
        1 => Just(Answer::Open),
        9 => (0..=most(Field::HoursSinceVisit)).prop_map(Answer::At),
    ];
    let time = prop::option::of(select(times(u32::MAX)));
    (each, visit, time, done()).prop_map(move |(each, visit, time, done)| {
        let answers = Answers::default().with(Field::HoursSinceVisit, visit);
        let mut given = fields.iter().zip(each);
        let answers = given.by_ref().fold(answers, |answers, (field, answer)| {
            answers.with(*field, answer)
        });
        let mut answers = match time {
            Some(time) => began(answers, &time),
            None => answers,
        };
        answers.treatments = done;
        answers
    })
}

/// Mostly "no": few signs, few gaps.
pub fn mild_answers() -> impl Strategy<Value = Answers> {
    let fields = asked();
    let some = prop::collection::vec((0..fields.len(), 0..12_u32), 0..4);
    let onset = prop_oneof![
        Just(None),
        select(times(u32::MAX)).prop_map(Some),
        (0..60_u32).prop_map(|hour| Some(hour.to_string())),
    ];
    (some, 0..60_u32, onset, done()).prop_map(move |(some, hours, onset, done)| {
        let mut answers = some
            .into_iter()
            .fold(nothing(hours), |answers, (at, place)| {
                let field = fields[at];
                let answer = match place {
                    10 => Answer::Open,
                    11 => Answer::NotSure,
                    place => Answer::At(place.min(most(field))),
                };
                answers.with(field, answer)
            });
        if let Some(onset) = onset {
            answers = began(answers, &onset);
        }
        answers.treatments = done;
        answers
    })
}

pub fn answers() -> impl Strategy<Value = Answers> {
    prop_oneof![any_answers(), mild_answers()]
}
