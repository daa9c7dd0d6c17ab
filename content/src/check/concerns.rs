//! What should stop or delay a treatment.

use std::collections::BTreeSet;

use shared_types::catalogue::{
    concern::{ConcernRule, Condition},
    treatment::Lead,
};

use super::{Review, figures::unknown_source};
use crate::{Content, files::CONSULTATION};

pub fn check(content: &Content, found: &mut Review<'_>) {
    let mut ids = BTreeSet::new();
    for (index, rule) in content.catalogue.concerns.iter().enumerate() {
        let place = index.to_string();
        let mut note = |last: &str, what: String| {
            found.note(CONSULTATION, &["concerns", &place, last], what);
        };
        if !ids.insert(&rule.id) {
            let what = format!("`{}` is there already; give each its own name", rule.id);
            note("id", what);
        }
        if rule.treatments.is_empty() {
            note("treatments", "name at least one treatment".to_owned());
        }
        for region in &rule.regions {
            if !content.regions.contains_key(region) {
                let what = format!("the region `{region}` is not in regions.toml");
                note("regions", what);
            }
        }
        if rule.sources.is_empty() {
            note("sources", "name at least one source".to_owned());
        }
        for id in &rule.sources {
            if !content.catalogue.sources.contains_key(id) {
                note("sources", unknown_source(id));
            }
        }
        if let Some(what) = lead_missing(content, rule) {
            note("lead_of", what);
        }
    }
}

/// What is wrong with where the rule takes its time from.
fn lead_missing(content: &Content, rule: &ConcernRule) -> Option<String> {
    let unit = match rule.when {
        Condition::RetinoidNotStopped => Some("days"),
        Condition::PatchTestTooYoung => Some("hours"),
        _ => None,
    };
    let Some(id) = &rule.lead_of else {
        return unit.map(|_| "name the `before_next` rule that says how long before".to_owned());
    };
    for treatment in &rule.treatments {
        let entry = content.catalogue.treatments.get(treatment)?;
        let lead = entry.before_next.iter().find(|before| before.id == *id);
        let named = lead.and_then(|before| Lead::named(before.lead));
        let fits = named.is_some_and(|(name, _)| unit.is_none_or(|unit| unit == name));
        if !fits {
            let unit = unit.unwrap_or("a time");
            return Some(format!(
                "`{treatment}` has no `before_next` rule `{id}` that names {unit}"
            ));
        }
    }
    None
}
