//! How soon to act when something is not right.

use std::collections::BTreeSet;

use shared_types::{
    catalogue::{
        Catalogue,
        figure::Unit,
        urgency::{UrgencyRule, UrgencyRules},
    },
    desk::reply_limit,
    urgency::{AdviceRule, Field, Level, Scale},
};

use super::{
    Review,
    figures::{check_figure, unknown_source},
};
use crate::files::URGENCY;

/// Limits that sentences name.
const SAID: &[(&str, Unit)] = &[
    ("rinse_minutes", Unit::Minute),
    ("cool_minutes", Unit::Minute),
    ("ordinary_hours", Unit::Hour),
    ("report_days", Unit::Day),
];

pub fn check(catalogue: &Catalogue, found: &mut Review<'_>) {
    let urgency = &catalogue.urgency;
    limits(catalogue, found);
    rules(catalogue, found);
    let known: BTreeSet<&str> = urgency.advice.iter().map(|one| one.id.as_str()).collect();
    let mut ids = BTreeSet::new();
    for (index, entry) in urgency.advice.iter().enumerate() {
        let place = index.to_string();
        let path = ["advice", place.as_str()];
        once(&entry.id, &mut ids, &path, found);
        sources(catalogue, &entry.sources, &path, found);
        advice(
            &entry.not_with,
            &known,
            &[&path[..], &["not_with"]].concat(),
            found,
        );
    }
    for (index, rule) in urgency.rules.iter().enumerate() {
        let place = index.to_string();
        advice(&rule.advice, &known, &["rules", &place, "advice"], found);
    }
    for level in Level::ALL {
        match urgency.levels.get(level) {
            Some(ids) if !ids.is_empty() => advice(ids, &known, &["levels", level.term()], found),
            _ => found.missing(URGENCY, format!("the level `{level}` advises nothing")),
        }
    }
    questions(urgency, found);
}

fn limits(catalogue: &Catalogue, found: &mut Review<'_>) {
    let limits = &catalogue.urgency.limits;
    for (name, figure) in limits {
        let said = SAID.iter().find(|(of, _)| of == name);
        let unit = said.map_or(figure.unit, |(_, unit)| *unit);
        check_figure(catalogue, URGENCY, &["limits", name], figure, unit, found);
        if catalogue.urgency.whole(name).is_none() {
            let what = format!("given {}; allowed is a whole number", figure.value);
            found.note(URGENCY, &["limits", name, "value"], what);
        }
    }
    for level in Level::ALL {
        let name = reply_limit(*level);
        let figure = limits.get(&name);
        if figure.is_none_or(|figure| figure.unit != Unit::Hour) {
            let what = format!("the limit `{name}`, in hours, is missing; the inbox needs it");
            found.missing(URGENCY, what);
        }
    }
    for (name, _) in SAID {
        if !limits.contains_key(*name) {
            found.missing(
                URGENCY,
                format!("the limit `{name}` is missing; a sentence names it"),
            );
        }
    }
}

fn rules(catalogue: &Catalogue, found: &mut Review<'_>) {
    let urgency = &catalogue.urgency;
    for fault in urgency.compile().1 {
        let (rule, row) = (fault.rule.to_string(), fault.row.to_string());
        found.note(URGENCY, &["rules", &rule, fault.list, &row], fault.what);
    }
    let mut ids = BTreeSet::new();
    for (index, rule) in urgency.rules.iter().enumerate() {
        let place = index.to_string();
        let path = ["rules", place.as_str()];
        once(&rule.id, &mut ids, &path, found);
        sources(catalogue, &rule.sources, &path, found);
        if rule.when.is_empty() || rule.when.iter().any(Vec::is_empty) {
            let what = "a rule without a fact would always hold; name at least one".to_owned();
            found.note(URGENCY, &[&path[..], &["when"]].concat(), what);
        }
        if let Some(what) = mildness(rule) {
            found.note(URGENCY, &[&path[..], &["level"]].concat(), what);
        }
    }
    if !urgency.rules.iter().any(|rule| rule.unknown) {
        let what = "no rule has `unknown = true`; what nobody knows would pass for ordinary";
        found.missing(URGENCY, what.to_owned());
    }
}

/// A level that a rule cannot have.
fn mildness(rule: &UrgencyRule) -> Option<String> {
    if rule.level == Level::Expected {
        return Some(format!(
            "`{}` raises nothing; leave the rule out",
            rule.level
        ));
    }
    let from = rule.raises.filter(|from| *from >= rule.level)?;
    Some(format!(
        "`{}` is no higher than `{from}`, which it raises",
        rule.level
    ))
}

fn questions(urgency: &UrgencyRules, found: &mut Review<'_>) {
    let mut ids = BTreeSet::new();
    for (index, question) in urgency.questions.iter().enumerate() {
        let place = index.to_string();
        let path = ["questions", place.as_str()];
        once(&question.id, &mut ids, &path, found);
        let at = [&path[..], &["fields"]].concat();
        if question.fields.is_empty() {
            found.note(URGENCY, &at, "name at least one field".to_owned());
        }
        let several = question.fields.len() > 1;
        for field in &question.fields {
            if field.is_derived() {
                found.note(URGENCY, &at, format!("`{field}` cannot be asked"));
            } else if several && !yes_or_no(*field) {
                let what = format!("`{field}` has other answers than yes and no; ask it alone");
                found.note(URGENCY, &at, what);
            }
        }
        if several && !question.none_means.is_empty() {
            let what = "only a question with one field can answer others".to_owned();
            found.note(URGENCY, &[&path[..], &["none_means"]].concat(), what);
        }
    }
    for field in facts(urgency) {
        let asked = urgency
            .questions
            .iter()
            .any(|one| one.fields.contains(&field));
        if !asked {
            let what = format!("`{field}` decides a rule and no question asks for it");
            found.missing(URGENCY, what);
        }
    }
}

/// The fields that have to be asked: those of every rule for which "not asked" is not "no". The time since the visit is
/// known.
fn facts(urgency: &UrgencyRules) -> BTreeSet<Field> {
    let rules = urgency.compiled().rules;
    let asking = rules.iter().filter(|rule| !rule.unasked_is_no);
    let facts = asking.flat_map(|rule| rule.when.iter().flatten());
    facts
        .map(|fact| match fact.field {
            Field::HoursSinceOnset => Field::OnsetHours,
            field => field,
        })
        .filter(|field| *field != Field::HoursSinceVisit)
        .collect()
}

fn yes_or_no(field: Field) -> bool {
    field.scale() == Scale::OneOf(&["no", "yes"])
}

fn once<'a>(id: &'a str, ids: &mut BTreeSet<&'a str>, path: &[&str], found: &mut Review<'_>) {
    if !ids.insert(id) {
        let what = format!("`{id}` is there already; give each its own name");
        found.note(URGENCY, &[path, &["id"]].concat(), what);
    }
}

fn sources(catalogue: &Catalogue, ids: &[String], path: &[&str], found: &mut Review<'_>) {
    let path = [path, &["sources"]].concat();
    if ids.is_empty() {
        found.note(URGENCY, &path, "name at least one source".to_owned());
    }
    for id in ids {
        if !catalogue.sources.contains_key(id) {
            found.note(URGENCY, &path, unknown_source(id));
        }
    }
}

fn advice(ids: &[String], known: &BTreeSet<&str>, path: &[&str], found: &mut Review<'_>) {
    for id in ids {
        if !known.contains(id.as_str()) {
            let what = format!("the advice `{id}` is not among those of this file");
            found.note(URGENCY, path, what);
        }
    }
}

/// The keys of what the rules can say and the questions can ask.
pub fn words(urgency: &UrgencyRules) -> Vec<String> {
    let rules = urgency.compiled();
    let mut keys: Vec<String> = Level::ALL.iter().map(|level| level.key()).collect();
    keys.extend(rules.advice.iter().map(AdviceRule::key));
    for question in &rules.questions {
        keys.push(question.key());
        keys.extend(question.offers().into_iter().filter_map(|offer| offer.key));
    }
    keys
}
