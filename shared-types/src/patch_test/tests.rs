use proptest::prelude::*;

use super::*;
use crate::{page::form::Filled, visit::Product};

fn product(name: &str) -> Product {
    Product {
        name: name.to_owned(),
        batch: String::new(),
    }
}

fn test(applied_at: &str) -> Applied {
    Applied {
        id: Uuid::from_u128(1),
        client: Uuid::from_u128(2),
        treatments: vec![Treatment::BrowTint, Treatment::LashTint],
        product: product("Orrin tint, slate"),
        place: Place::BehindTheEar,
        place_words: String::new(),
        applied_at: applied_at.parse().unwrap(),
        look_hours: vec![24, 48, 72],
        note: String::new(),
    }
}

/// Hours are elapsed hours: over the night of 24 to 25 October 2026, when clocks in Europe go back (Directive 2000/84/EC:
/// last Sunday of October), the instants stay a day apart.
#[test]
fn looks_are_elapsed_hours_apart() {
    let test = test("2026-10-24T13:30:00Z");
    let at = |text: &str| -> DateTime<Utc> { text.parse().unwrap() };
    let expected = [
        (24, at("2026-10-25T13:30:00Z")),
        (48, at("2026-10-26T13:30:00Z")),
        (72, at("2026-10-27T13:30:00Z")),
    ];
    assert_eq!(test.looks().collect::<Vec<_>>(), expected);
    let next = |now: &str| test.next_look(at(now));
    assert_eq!(next("2026-10-25T13:29:59Z"), Some(expected[0].1));
    assert_eq!(next("2026-10-25T13:30:00Z"), Some(expected[1].1));
    assert_eq!(next("2026-10-27T13:30:00Z"), None);
}

#[test]
fn another_product_is_one_that_none_of_todays_is() {
    let test = test("2026-10-24T13:30:00Z");
    let changed = |names: &[&str]| {
        let products: Vec<Product> = names.iter().map(|name| product(name)).collect();
        test.is_of_other_than(&products)
    };
    assert!(!changed(&[]), "nothing is known");
    assert!(!changed(&["Velm soft wax", " orrin TINT, slate "]));
    assert!(changed(&["Orrin tint, nut brown"]));
}

#[test]
fn what_a_test_stands_at() {
    use Look::{Read, Told};
    use Noticed::{NotSure, Nothing, Something};
    use Outcome::{NoReaction, Reacted, Unclear};
    for (looks, stands) in [
        (&[][..], None),
        (&[Told(Nothing)], None),
        (&[Told(NotSure)], Some(Unclear)),
        (&[Told(Something)], Some(Reacted)),
        (&[Told(Something), Told(NotSure)], Some(Reacted)),
        (&[Told(Something), Told(Nothing)], Some(Reacted)),
        (&[Told(Something), Read(NoReaction)], Some(NoReaction)),
        (&[Read(NoReaction), Told(Something)], Some(Reacted)),
        (&[Read(NoReaction), Told(Nothing)], Some(NoReaction)),
        (&[Read(Reacted), Read(NoReaction)], Some(NoReaction)),
        (&[Read(Reacted), Told(NotSure)], Some(Reacted)),
    ] {
        assert_eq!(stands_at(looks.iter().copied()), stands, "{looks:?}");
    }
}

fn any_look() -> impl Strategy<Value = Look> {
    prop_oneof![
        prop::sample::select(Outcome::ALL).prop_map(Look::Read),
        prop::sample::select(Noticed::ALL).prop_map(Look::Told),
    ]
}

proptest! {
    /// Whatever came before: what a client sees counts until the artist has looked, and nothing that a client says after
    /// it makes a test better.
    #[test]
    fn a_client_makes_no_test_better(
        before in prop::collection::vec(any_look(), 0..6),
        after in prop::collection::vec(prop::sample::select(Noticed::ALL), 0..4),
    ) {
        let told = after.into_iter().map(Look::Told);
        let looks = before.into_iter().chain([Look::Told(Noticed::Something)]).chain(told);
        prop_assert_eq!(stands_at(looks), Some(Outcome::Reacted));
    }
}

#[test]
fn a_test_for_two_treatments_is_one_for_each() {
    let tests = before_treatment(&test("2026-10-24T13:30:00Z"), Some(Outcome::Unclear), &[]);
    let told: Vec<_> = tests
        .iter()
        .map(|one| (one.treatment, one.outcome))
        .collect();
    assert_eq!(
        told,
        [
            (Treatment::BrowTint, Some(Outcome::Unclear)),
            (Treatment::LashTint, Some(Outcome::Unclear))
        ]
    );
}

#[test]
fn an_answer_needs_what_was_seen_and_consent() {
    let read = |fields: &[(&str, &str)]| {
        let mut form = Filled::default();
        for (name, value) in fields {
            form.put(name, *value);
        }
        Answer::from_form(&form)
    };
    let faults = |fields: &[(&str, &str)]| -> Vec<&str> {
        let faults = read(fields).unwrap().unwrap_err();
        faults.iter().map(|fault| fault.field).collect()
    };
    let answer = read(&[
        ("noticed", "something"),
        ("words", " It itches. "),
        ("consent", "1"),
    ]);
    let answer = answer.unwrap().unwrap();
    assert_eq!(
        (answer.noticed, answer.words.as_str()),
        (Noticed::Something, "It itches.")
    );
    assert_eq!(faults(&[("words", "It itches.")]), ["noticed", "consent"]);
    let long = "x".repeat(4001);
    assert_eq!(
        faults(&[("noticed", "nothing"), ("words", &long), ("consent", "1")]),
        ["words"]
    );
    assert!(read(&[("noticed", "a rash"), ("consent", "1")]).is_err());
}
