//! What reports are alike in.

use std::collections::BTreeSet;

use shared_types::urgency::{Answer, Answers, Field, Rules, Truth};

/// The signs that somebody reported: whatever a rule asks for and was answered so. How strong it is, since when, and what
/// makes somebody more at risk are no signs, and neither is what nobody is sure of.
pub fn signs(rules: &Rules, answers: &Answers) -> BTreeSet<Field> {
    let facts = rules.rules.iter().flat_map(|rule| &rule.when).flatten();
    let there = facts.filter(|fact| {
        is_sign(fact.field)
            && matches!(answers.get(fact.field), Answer::At(_))
            && fact.truth(answers) == Truth::Yes
    });
    there.map(|fact| fact.field).collect()
}

const fn is_sign(field: Field) -> bool {
    !matches!(
        field,
        Field::HoursSinceVisit
            | Field::OnsetHours
            | Field::HoursSinceOnset
            | Field::Trend
            | Field::Redness
            | Field::Itch
            | Field::Pain
            | Field::ContactLens
            | Field::HigherRisk
            | Field::Unsure
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(given: &[(Field, &str)]) -> Vec<Field> {
        let content = content::Content::built_in().unwrap();
        let mut answers = Answers::default();
        for (field, text) in given {
            answers.put(*field, text).unwrap();
        }
        let signs = signs(&content.catalogue.urgency.compiled(), &answers);
        signs.into_iter().collect()
    }

    #[test]
    fn neither_how_strong_nor_how_long_nor_what_is_not_known_is_a_sign() {
        let given = [
            (Field::Rash, "yes"),
            (Field::Redness, "4"),
            (Field::Itch, "9"),
            (Field::Pain, "8"),
            (Field::Trend, "worse"),
            (Field::HoursSinceVisit, "90"),
            (Field::OnsetHours, "24"),
            (Field::HigherRisk, "yes"),
            (Field::ContactLens, "yes"),
            (Field::ProductInEye, "not_sure"),
            (Field::Hives, "not_sure"),
            (Field::Swelling, "none"),
            (Field::EyeRed, "no"),
            (Field::EyePain, "0"),
            (Field::Unsure, "yes"),
        ];
        assert_eq!(of(&given), [Field::Rash]);
    }

    /// Whatever its level: a swollen lid and a swollen face are both swelling.
    #[test]
    fn a_sign_is_the_same_at_every_strength() {
        for strength in ["local", "lids", "face", "shut"] {
            assert_eq!(of(&[(Field::Swelling, strength)]), [Field::Swelling]);
        }
        assert_eq!(of(&[(Field::Blisters, "few")]), [Field::Blisters]);
        assert_eq!(of(&[(Field::EyePain, "1")]), [Field::EyePain]);
    }

    /// Nothing that a client can be asked for and that raises a report by itself goes uncounted.
    #[test]
    fn every_sign_that_a_rule_asks_for_is_counted() {
        let content = content::Content::built_in().unwrap();
        for rule in &content.catalogue.urgency.compiled().rules {
            for fact in rule.when.iter().flatten() {
                let answers = Answers::default().with(fact.field, Answer::At(fact.least));
                let found = signs(&content.catalogue.urgency.compiled(), &answers);
                assert_eq!(
                    found.contains(&fact.field),
                    is_sign(fact.field),
                    "{}",
                    rule.id
                );
            }
        }
    }
}
