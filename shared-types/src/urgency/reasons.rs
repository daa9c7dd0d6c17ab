//! Which answers raised a report: those that the rules which hold ask for.

use super::{
    answers::{Answer, Answers},
    fact::Truth,
    field::Field,
    rules::{Level, Rule, Rules},
};

/// The fields by which these rules hold, each once, the firmest rule's first. Where the rule for what nobody knows holds,
/// they are those answered "not sure". Ids of rules that are no longer there say nothing.
pub fn reasons(rules: &Rules, ids: &[String], answers: &Answers) -> Vec<Field> {
    let mut fired: Vec<&Rule> = rules
        .rules
        .iter()
        .filter(|rule| ids.contains(&rule.id))
        .collect();
    // A stable sort keeps the order of the rules.
    fired.sort_by_key(|rule| std::cmp::Reverse(rule.level));
    let mut fields: Vec<Field> = Vec::new();
    for rule in fired {
        let holds = |row: &&Vec<_>| {
            let facts: &[super::fact::Fact] = row;
            facts.iter().all(|fact| fact.truth(answers) == Truth::Yes)
        };
        let named = rule.when.iter().filter(holds).flatten();
        fields.extend(named.map(|fact| fact.asks()));
        if rule.unknown {
            let unsure = answers.answered();
            fields.extend(unsure.filter(|field| answers.get(*field) == Answer::NotSure));
        }
    }
    let mut once = Vec::new();
    for field in fields {
        if answers.get(field) != Answer::Open && !once.contains(&field) {
            once.push(field);
        }
    }
    once
}

/// The fields that nobody answered and that a rule for help on the same day, or at once, still waits for, each once.
pub fn unanswered(rules: &Rules, answers: &Answers) -> Vec<Field> {
    let danger = rules.rules.iter().filter(|rule| {
        rule.level >= Level::SameDay
            && rule.raises.is_none()
            && matches!(rule.truth(answers), Truth::Open | Truth::NotSure)
    });
    let asked = danger.flat_map(|rule| rule.when.iter().flatten());
    let mut open = Vec::new();
    for field in asked.map(|fact| fact.asks()) {
        if answers.get(field) == Answer::Open && !open.contains(&field) {
            open.push(field);
        }
    }
    open
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::urgency::Fact;

    fn rule(id: &str, level: Level, when: Vec<Vec<Fact>>, unknown: bool) -> Rule {
        Rule {
            id: id.to_owned(),
            level,
            when,
            unless: Vec::new(),
            after: Vec::new(),
            not_after: Vec::new(),
            raises: None,
            unasked_is_no: false,
            unknown,
            advice: Vec::new(),
        }
    }

    fn yes(field: Field) -> Fact {
        Fact {
            field,
            least: 1,
            most: u32::MAX,
            or_not_sure: false,
        }
    }

    fn ids(all: &[&str]) -> Vec<String> {
        all.iter().map(|id| (*id).to_owned()).collect()
    }

    #[test]
    fn the_firmest_rule_comes_first_and_only_rows_that_hold_are_named() {
        let rules = Rules {
            rules: vec![
                rule(
                    "T1",
                    Level::Studio,
                    vec![vec![yes(Field::Rash)], vec![yes(Field::Itch)]],
                    false,
                ),
                rule(
                    "E1",
                    Level::Emergency,
                    vec![vec![yes(Field::Airway)]],
                    false,
                ),
            ],
            ..Rules::default()
        };
        let answers = Answers::default()
            .with(Field::Rash, Answer::At(1))
            .with(Field::Itch, Answer::At(0))
            .with(Field::Airway, Answer::At(1));
        let both = ids(&["T1", "E1"]);
        assert_eq!(
            reasons(&rules, &both, &answers),
            [Field::Airway, Field::Rash]
        );
        assert_eq!(reasons(&rules, &ids(&["T1"]), &answers), [Field::Rash]);
        assert!(reasons(&rules, &ids(&["gone"]), &answers).is_empty());
    }

    #[test]
    fn where_something_is_not_known_that_is_the_reason() {
        let rules = Rules {
            rules: vec![rule(
                "T8",
                Level::Studio,
                vec![vec![yes(Field::Unsure)]],
                true,
            )],
            ..Rules::default()
        };
        let answers = Answers::default()
            .with(Field::Swelling, Answer::NotSure)
            .with(Field::Rash, Answer::At(0));
        assert_eq!(reasons(&rules, &ids(&["T8"]), &answers), [Field::Swelling]);
    }
}
