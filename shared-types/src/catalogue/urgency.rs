//! The rules of how soon to act, as the content's file has them: with sources, and with every number by its name.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::{
    caution::Grade,
    figure::{Figure, Unit},
};
use crate::{
    desk::reply_limit,
    reaction::FollowUps,
    urgency::{
        AdviceRule, Fact, Field, HOURS_MOST, Level, LevelAdvice, Question, Rule, Rules, Scale,
    },
    visit::Treatment,
};

/// How the limits begin that say when to ask again.
pub const ASK_AGAIN: &str = "ask_again_";

#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct UrgencyRules {
    /// Numbers that rules and sentences name.
    pub limits: BTreeMap<String, Figure>,
    pub rules: Vec<UrgencyRule>,
    pub advice: Vec<AdviceEntry>,
    pub levels: BTreeMap<Level, Vec<String>>,
    pub questions: Vec<QuestionEntry>,
}

/// One rule. A fact is written `airway` (yes), `swelling is face`, `swelling from lids` (that or worse), `itch from
/// itch_to_tell`, `hours_since_visit over ordinary_hours`, `hours_since_onset within rapid_hours`, or `product_in_eye maybe`
/// (yes or not sure). What stands behind is a term of the field's scale, a number, or the name of a limit.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct UrgencyRule {
    pub id: String,
    pub level: Level,
    pub when: Vec<Vec<String>>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub unless: Vec<Vec<String>>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub after: Vec<Treatment>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub not_after: Vec<Treatment>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub raises: Option<Level>,
    #[serde(default)]
    pub unasked_is_no: bool,
    #[serde(default)]
    pub unknown: bool,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub advice: Vec<String>,
    pub grade: Grade,
    pub sources: Vec<String>,
}

/// One piece of advice; see [`AdviceRule`].
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AdviceEntry {
    pub id: String,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub not_with: Vec<String>,
    #[serde(default)]
    pub at_any_level: bool,
    pub grade: Grade,
    pub sources: Vec<String>,
}

/// One question; see [`Question`].
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct QuestionEntry {
    pub id: String,
    pub fields: Vec<Field>,
    #[serde(default)]
    pub eye: bool,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub none_means: Vec<Field>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub hours: Vec<u32>,
}

/// A fact that means nothing: the rule's place, `when` or `unless`, the row's place, and what is wrong.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FactFault {
    pub rule: usize,
    pub list: &'static str,
    pub row: usize,
    pub what: String,
}

impl UrgencyRules {
    /// The rules as they are applied. Content that was checked has no faults.
    pub fn compiled(&self) -> Rules {
        self.compile().0
    }

    /// The rules as they are applied, and every fact that had to be left out.
    pub fn compile(&self) -> (Rules, Vec<FactFault>) {
        let mut faults = Vec::new();
        let mut rules = Vec::new();
        for (place, entry) in self.rules.iter().enumerate() {
            let mut rows = |list: &'static str, rows: &[Vec<String>]| {
                let mut read = Vec::new();
                for (row, facts) in rows.iter().enumerate() {
                    let facts: Result<Vec<Fact>, String> =
                        facts.iter().map(|text| self.fact(text)).collect();
                    match facts {
                        Ok(facts) => read.push(facts),
                        Err(what) => faults.push(FactFault {
                            rule: place,
                            list,
                            row,
                            what,
                        }),
                    }
                }
                read
            };
            let when = rows("when", &entry.when);
            let unless = rows("unless", &entry.unless);
            rules.push(Rule {
                id: entry.id.clone(),
                level: entry.level,
                when,
                unless,
                after: entry.after.clone(),
                not_after: entry.not_after.clone(),
                raises: entry.raises,
                unasked_is_no: entry.unasked_is_no,
                unknown: entry.unknown,
                advice: entry.advice.clone(),
            });
        }
        let compiled = Rules {
            rules,
            advice: self.advice.iter().map(AdviceEntry::rule).collect(),
            levels: self
                .levels
                .iter()
                .map(|(level, advice)| LevelAdvice {
                    level: *level,
                    advice: advice.clone(),
                })
                .collect(),
            questions: self.questions.iter().map(QuestionEntry::question).collect(),
        };
        (compiled, faults)
    }

    /// A limit as a whole number, for a sentence.
    pub fn whole(&self, limit: &str) -> Option<u32> {
        let value = self.limits.get(limit)?.value;
        // The content's check lets only whole numbers in this range through.
        (value.fract() == 0.0 && (0.0..=f64::from(HOURS_MOST)).contains(&value))
            .then_some(value as u32)
    }

    /// Hours within which a studio that set nothing itself replies to a report of this level.
    pub fn reply_hours(&self, level: Level) -> u32 {
        self.whole(&reply_limit(level)).unwrap_or_default()
    }

    /// When somebody who reported is asked again how it goes.
    pub fn follow_ups(&self) -> FollowUps {
        let limits = self
            .limits
            .keys()
            .filter(|name| name.starts_with(ASK_AGAIN));
        let mut hours: Vec<u32> = limits.filter_map(|name| self.whole(name)).collect();
        hours.sort_unstable();
        FollowUps(hours)
    }

    fn fact(&self, text: &str) -> Result<Fact, String> {
        let mut words = text.split(' ');
        let field: Field = words
            .next()
            .unwrap_or_default()
            .parse()
            .map_err(|error| format!("{error}"))?;
        let (least, most, or_not_sure) = match (words.next(), words.next(), words.next()) {
            (None, None, None) => (self.place(field, "yes")?, 1, false),
            (Some("maybe"), None, None) => (self.place(field, "yes")?, 1, true),
            (Some("is"), Some(to), None) => {
                let place = self.place(field, to)?;
                (place, place, false)
            }
            (Some("from"), Some(from), None) => (self.place(field, from)?, u32::MAX, false),
            (Some("over"), Some(from), None) => (self.place(field, from)? + 1, u32::MAX, false),
            (Some("within"), Some(to), None) => (0, self.place(field, to)?, false),
            _ => {
                return Err(format!(
                    "`{text}` is no fact; write a field, alone or with `is`, `from`, `over`, `within` or `maybe`"
                ));
            }
        };
        Ok(Fact {
            field,
            least,
            most,
            or_not_sure,
        })
    }

    /// The place in the field's scale of a term, a number or a limit.
    fn place(&self, field: Field, to: &str) -> Result<u32, String> {
        let unknown = || format!("`{field}` has no `{to}`; allowed is {}", field.allowed());
        let limit = |unit: Unit| {
            let figure = self.limits.get(to).filter(|figure| figure.unit == unit);
            figure.and_then(|_| self.whole(to))
        };
        match field.scale() {
            Scale::OneOf(terms) => terms
                .iter()
                .position(|term| *term == to)
                .and_then(|place| u32::try_from(place).ok()),
            Scale::UpTo(most) => to
                .parse()
                .ok()
                .or_else(|| limit(Unit::One))
                .filter(|number| *number <= most),
            Scale::Hours => limit(Unit::Hour)
                .or_else(|| limit(Unit::Day).map(|days| days * 24))
                .map(|hours| hours * 60),
        }
        .ok_or_else(unknown)
    }
}

impl AdviceEntry {
    fn rule(&self) -> AdviceRule {
        AdviceRule {
            id: self.id.clone(),
            not_with: self.not_with.clone(),
            at_any_level: self.at_any_level,
        }
    }
}

impl QuestionEntry {
    fn question(&self) -> Question {
        Question {
            id: self.id.clone(),
            fields: self.fields.clone(),
            eye: self.eye,
            none_means: self.none_means.clone(),
            hours: self.hours.clone(),
        }
    }
}
