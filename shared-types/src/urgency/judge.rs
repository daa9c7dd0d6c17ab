//! From answers to a level, the rules that raised it, and what to do.

use super::{
    answers::{Answer, Answers},
    fact::Truth,
    field::Field,
    rules::{Level, Rule, Rules},
};

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Verdict<'a> {
    pub level: Level,
    /// Ids of the rules that hold, in the order of the rules.
    pub rules: Vec<&'a str>,
    /// Ids of advice, in the order in which it is told.
    pub advice: Vec<&'a str>,
}

/// The highest level of any rule that holds. What is not known keeps it from being [`Level::Expected`].
pub fn judge<'a>(rules: &'a Rules, answers: &Answers) -> Verdict<'a> {
    let mut hit: Vec<&Rule> = Vec::new();
    let mut level = Level::Expected;
    let mut known = true;
    for rule in rules.rules.iter().filter(|rule| rule.raises.is_none()) {
        match rule.truth(answers) {
            Truth::Yes => {
                level = level.max(rule.level);
                hit.push(rule);
            }
            Truth::No => {}
            Truth::Open | Truth::NotSure => known = false,
        }
    }
    if hit.is_empty() && !known {
        for rule in rules.rules.iter().filter(|rule| rule.unknown) {
            level = level.max(rule.level);
            hit.push(rule);
        }
    }
    let before = level;
    for rule in &rules.rules {
        if rule.raises == Some(before) && rule.truth(answers) == Truth::Yes {
            level = level.max(rule.level);
            hit.push(rule);
        }
    }
    Verdict {
        level,
        rules: hit.iter().map(|rule| rule.id.as_str()).collect(),
        advice: advice(rules, &hit, level),
    }
}

/// That of the rules at the level reached and of the level itself; of milder rules only what holds at any level.
fn advice<'a>(rules: &'a Rules, hit: &[&Rule], level: Level) -> Vec<&'a str> {
    let of_level = rules.levels.iter().filter(|one| one.level == level);
    let of_level: Vec<&String> = of_level.flat_map(|one| &one.advice).collect();
    let given = |id: &String| {
        let of_rule = |rule: &&Rule| rule.level == level && rule.advice.contains(id);
        of_level.contains(&id) || hit.iter().any(of_rule)
    };
    let told = rules.advice.iter().filter(|one| {
        let milder = one.at_any_level && hit.iter().any(|rule| rule.advice.contains(&one.id));
        (milder || given(&one.id)) && !one.not_with.iter().any(given)
    });
    told.map(|one| one.id.as_str()).collect()
}

/// Whether the card on rinsing comes before any further question: product is in the eye, or may be. Rinsing never waits.
pub fn rinse_first(answers: &Answers) -> bool {
    match answers.get(Field::ProductInEye) {
        Answer::At(place) => place > 0,
        Answer::NotSure => true,
        Answer::Open => false,
    }
}
