//! What widens a forecast or switches it off.

use shared_types::catalogue::{
    Catalogue,
    figure::Unit,
    flag::{Effect, Flag},
};

use super::{
    Review,
    figures::{check_figure, unknown_source},
};
use crate::files::FLAGS;

pub fn check(catalogue: &Catalogue, found: &mut Review<'_>) {
    for flag in Flag::ALL {
        let Some(rule) = catalogue.flags.get(flag) else {
            found.missing(FLAGS, format!("`{flag}` is missing; say what it does"));
            continue;
        };
        if let Effect::Widen(factor) = &rule.effect {
            let path = [flag.term(), "effect", "widen"];
            check_figure(catalogue, FLAGS, &path, factor, Unit::One, found);
            // Written so that a number that is none is caught as well.
            if !(factor.value >= 1.0 && factor.value.is_finite()) {
                let what = format!("given {}; allowed is 1 or more", factor.value);
                found.note(FLAGS, &[&path[..], &["value"]].concat(), what);
            }
        }
        let path = [flag.term(), "sources"];
        if rule.sources.is_empty() {
            found.note(FLAGS, &path, "name at least one source".to_owned());
        }
        for (index, id) in rule.sources.iter().enumerate() {
            if !catalogue.sources.contains_key(id) {
                let place = index.to_string();
                found.note(FLAGS, &[&path[..], &[&place]].concat(), unknown_source(id));
            }
        }
    }
}
