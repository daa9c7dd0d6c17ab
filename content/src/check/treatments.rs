//! Cautions, intervals, and what to do before the next visit.

use std::collections::BTreeMap;

use chrono::{DateTime, NaiveDate};
use shared_types::{
    care_plan::{Person, PlanFor, Practice, own::Beside, plan},
    catalogue::{
        Catalogue,
        caution::CautionRule,
        treatment::{Act, Lead, TradeInterval, TreatmentEntry},
    },
    visit::Findings,
};

use super::{
    Review,
    figures::{check_figure, unknown_source},
};
use crate::files::TREATMENTS;

pub fn check(catalogue: &Catalogue, found: &mut Review<'_>) {
    if catalogue.treatments.is_empty() {
        found.missing(
            TREATMENTS,
            "there is no treatment; a studio needs at least one".to_owned(),
        );
    }
    let mut rules: BTreeMap<&str, (Act, Lead)> = BTreeMap::new();
    for (treatment, entry) in &catalogue.treatments {
        let term = treatment.term();
        check_cautions(catalogue, term, entry, found);
        check_interval(term, &entry.interval, found);
        check_sources(
            catalogue,
            &[term, "interval", "sources"],
            &entry.interval.sources,
            found,
        );
        if let Some(removal) = &entry.removal {
            for (name, figure, unit) in removal.all() {
                let path = [term, "removal", name];
                let file = found.file_of(&path);
                check_figure(catalogue, &file, &path, figure, unit, found);
            }
            check_sources(
                catalogue,
                &[term, "removal", "sources"],
                &removal.sources,
                found,
            );
        }
        if let Some(tint) = &entry.tint {
            check_sources(catalogue, &[term, "tint", "sources"], &tint.sources, found);
        }
        for (index, rule) in entry.before_next.iter().enumerate() {
            let index = index.to_string();
            let path = [term, "before_next", &index];
            check_sources(
                catalogue,
                &[&path[..], &["sources"]].concat(),
                &rule.sources,
                found,
            );
            if let Some((act, lead)) = rules.insert(&rule.id, (rule.act, rule.lead)) {
                let mut differ = |field, what: &str| {
                    let what = format!("`{}` {what} here than above; they have to agree", rule.id);
                    found.note_treatment(&[&path[..], &[field]].concat(), what);
                };
                if lead != rule.lead {
                    differ("lead", "names another time");
                }
                if act != rule.act {
                    differ("act", "asks for something else");
                }
            }
        }
        check_plan(catalogue, *treatment, found);
    }
}

fn check_cautions(
    catalogue: &Catalogue,
    term: &str,
    entry: &TreatmentEntry,
    found: &mut Review<'_>,
) {
    for (index, rule) in entry.cautions.iter().enumerate() {
        let place = index.to_string();
        let path = [term, "cautions", &place];
        let at = |last| [&path[..], &[last]].concat();
        if entry
            .cautions
            .iter()
            .take(index)
            .any(|before| before.kind == rule.kind)
        {
            found.note_treatment(
                &at("kind"),
                format!("`{term}` has a caution `{}` already", rule.kind),
            );
        }
        check_hours(rule, &at, found);
        check_sources(catalogue, &at("sources"), &rule.sources, found);
    }
}

fn check_hours<'a>(
    rule: &CautionRule,
    at: &impl Fn(&'a str) -> Vec<&'a str>,
    found: &mut Review<'_>,
) {
    let CautionRule {
        least_hours: least,
        most_hours: most,
        ..
    } = rule;
    if least > most {
        let what = format!(
            "the range runs from {least} down to {most} hours; exchange `least_hours` and `most_hours`"
        );
        found.note_treatment(&at("least_hours"), what);
        return;
    }
    let range = least..=most;
    let outside =
        |hours: u32| format!("{hours} hours is outside the range of {least} to {most} hours");
    if !range.contains(&&rule.hours) {
        found.note_treatment(&at("hours"), outside(rule.hours));
    }
    for (finding, hours) in &rule.hours_with {
        if !range.contains(&hours) {
            found.note_treatment(&at("hours_with"), format!("{finding}: {}", outside(*hours)));
        }
    }
}

fn check_interval(term: &str, interval: &TradeInterval, found: &mut Review<'_>) {
    let TradeInterval {
        earliest_days,
        best_days,
        latest_days,
        ..
    } = interval;
    if !(earliest_days <= best_days && best_days <= latest_days) {
        let what = format!(
            "the days {earliest_days}, {best_days}, {latest_days} have to rise from earliest over best to latest"
        );
        found.note_treatment(&[term, "interval", "earliest_days"], what);
    }
}

fn check_sources(catalogue: &Catalogue, path: &[&str], sources: &[String], found: &mut Review<'_>) {
    if sources.is_empty() {
        found.note_treatment(path, "name at least one source".to_owned());
    }
    for (index, id) in sources.iter().enumerate() {
        if !catalogue.sources.contains_key(id) {
            found.note_treatment(&[path, &[&index.to_string()]].concat(), unknown_source(id));
        }
    }
}

/// Whatever else could keep a plan from being made comes to light here and not at a checkout.
fn check_plan(
    catalogue: &Catalogue,
    treatment: shared_types::visit::Treatment,
    found: &mut Review<'_>,
) {
    let visit = PlanFor {
        finished_at: DateTime::UNIX_EPOCH,
        local_date: NaiveDate::default(),
        treatments: &[treatment],
        findings: Findings::default(),
        person: &Person::default(),
        practice: &Practice::default(),
        beside: Beside::default(),
    };
    if let Err(error) = plan(catalogue, &visit) {
        found.note_treatment(&[treatment.term()], error.to_string());
    }
}
