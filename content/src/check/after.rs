//! What is told about how it settles.

use std::collections::BTreeSet;

use shared_types::{
    catalogue::{Catalogue, after::AfterRules},
    visit::Treatment,
};

use super::{Review, figures::unknown_source};
use crate::files::AFTER;

pub fn check(catalogue: &Catalogue, found: &mut Review<'_>) {
    let AfterRules {
        ordinary,
        not_ordinary,
        tips,
    } = &catalogue.after;
    let lists = [
        (
            "ordinary",
            ordinary
                .iter()
                .map(|rule| (&rule.id, &rule.treatments, &rule.sources))
                .collect::<Vec<_>>(),
        ),
        (
            "not_ordinary",
            not_ordinary
                .iter()
                .map(|rule| (&rule.id, &rule.treatments, &rule.sources))
                .collect(),
        ),
        (
            "tips",
            tips.iter()
                .map(|rule| (&rule.id, &rule.treatments, &rule.sources))
                .collect(),
        ),
    ];
    for (list, rules) in &lists {
        let mut ids = BTreeSet::new();
        for (index, (id, treatments, sources)) in rules.iter().enumerate() {
            let place = index.to_string();
            let path = [*list, &place];
            if !ids.insert(id) {
                let what = format!("`{id}` is in this list already; give each its own name");
                found.note(AFTER, &[&path[..], &["id"]].concat(), what);
            }
            if treatments.is_empty() {
                let what = "name at least one treatment".to_owned();
                found.note(AFTER, &[&path[..], &["treatments"]].concat(), what);
            }
            check_sources(catalogue, &path, sources, found);
        }
        // Who is told nothing cannot know what is ordinary.
        for treatment in catalogue.treatments.keys() {
            if !told_of(
                *treatment,
                rules.iter().map(|(_, treatments, _)| *treatments),
            ) {
                let what = format!("nothing in `{list}` is for `{treatment}`; add it to one");
                found.missing(AFTER, what);
            }
        }
    }
}

fn told_of<'a>(treatment: Treatment, mut rules: impl Iterator<Item = &'a Vec<Treatment>>) -> bool {
    rules.any(|treatments| treatments.contains(&treatment))
}

fn check_sources(catalogue: &Catalogue, path: &[&str], sources: &[String], found: &mut Review<'_>) {
    let path = [path, &["sources"]].concat();
    if sources.is_empty() {
        found.note(AFTER, &path, "name at least one source".to_owned());
    }
    for (index, id) in sources.iter().enumerate() {
        if !catalogue.sources.contains_key(id) {
            let place = index.to_string();
            found.note(AFTER, &[&path[..], &[&place]].concat(), unknown_source(id));
        }
    }
}
