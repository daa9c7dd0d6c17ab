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

/// The highest level of any rule that holds. What is not known keeps it from being [`Level::Expected`], and is told for as
/// long as nothing more urgent holds.
pub fn judge<'a>(rules: &'a Rules, answers: &Answers) -> Verdict<'a> {
    let all: Vec<(&Rule, Truth)> = rules
        .rules
        .iter()
        .map(|rule| (rule, rule.truth(answers)))
        .collect();
    let by_itself = |(rule, truth): &&(&Rule, Truth)| rule.raises.is_none() && *truth == Truth::Yes;
    let sure = highest(all.iter().filter(by_itself));
    let raised =
        |(rule, truth): &&(&Rule, Truth)| rule.raises == Some(sure) && *truth == Truth::Yes;
    let reached = sure.max(highest(all.iter().filter(raised)));
    let not_known = all.iter().any(|(rule, truth)| {
        rule.raises.is_none_or(|from| from == reached)
            && match truth {
                // Somebody said so.
                Truth::NotSure => true,
                // What nobody asked matters if it could be more urgent.
                Truth::Open => rule.level > reached,
                Truth::No | Truth::Yes => false,
            }
    });
    let unknown = |rule: &Rule| not_known && rule.unknown && rule.level >= reached;
    let before = sure.max(highest(all.iter().filter(|(rule, _)| unknown(rule))));
    let hit: Vec<&(&Rule, Truth)> = all
        .iter()
        .filter(|(rule, truth)| match rule.raises {
            Some(from) => (from == sure || from == before) && *truth == Truth::Yes,
            None => *truth == Truth::Yes || unknown(rule),
        })
        .collect();
    let level = highest(hit.iter().copied());
    Verdict {
        level,
        rules: hit.iter().map(|(rule, _)| rule.id.as_str()).collect(),
        advice: advice(rules, &hit, level),
    }
}

fn highest<'a>(rules: impl Iterator<Item = &'a (&'a Rule, Truth)>) -> Level {
    rules
        .map(|(rule, _)| rule.level)
        .max()
        .unwrap_or(Level::Expected)
}

/// That of the rules at the level reached and of the level itself; of milder rules only what holds at any level.
fn advice<'a>(rules: &'a Rules, hit: &[&(&Rule, Truth)], level: Level) -> Vec<&'a str> {
    let of_level = rules.levels.iter().filter(|one| one.level == level);
    let of_level: Vec<&String> = of_level.flat_map(|one| &one.advice).collect();
    let given = |id: &String| {
        let of_rule = |(rule, _): &&(&Rule, Truth)| rule.level == level && rule.advice.contains(id);
        of_level.contains(&id) || hit.iter().any(of_rule)
    };
    let told = rules.advice.iter().filter(|one| {
        let milder = one.at_any_level && hit.iter().any(|(rule, _)| rule.advice.contains(&one.id));
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
