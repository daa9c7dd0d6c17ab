//! Emergency numbers: one that is wrong could cost a life, one that is missing too.

use shared_types::catalogue::figure::Unit;

use super::{Review, figures::check_figure};
use crate::{Content, files::REGIONS};

/// The region of a studio that is in none of the others.
pub const OTHER: &str = "other";

pub fn check(content: &Content, found: &mut Review<'_>) {
    if !content.regions.contains_key(OTHER) {
        found.missing(
            REGIONS,
            format!("the region `{OTHER}` is missing; it serves studios that are in no other"),
        );
    }
    for (id, region) in &content.regions {
        let dial = &region.emergency_dial;
        if dial.is_empty() || !dial.bytes().all(|byte| byte.is_ascii_digit()) {
            found.note(
                REGIONS,
                &[id, "emergency_dial"],
                format!("`{dial}` cannot be dialled; write digits only"),
            );
        }
        if !content.catalogue.sources.contains_key(&region.source) {
            found.note(
                REGIONS,
                &[id, "source"],
                super::figures::unknown_source(&region.source),
            );
        }
        if region.serious.is_empty() != region.serious_sources.is_empty() {
            let what = "what is serious by law needs a source, and a source something to say";
            found.note(REGIONS, &[id, "serious_sources"], what.to_owned());
        }
        for source in &region.serious_sources {
            if !content.catalogue.sources.contains_key(source) {
                let what = super::figures::unknown_source(source);
                found.note(REGIONS, &[id, "serious_sources"], what);
            }
        }
        if let Some(pass_on) = &region.pass_on {
            let path = [id, "pass_on", "days"];
            let figure = &pass_on.days;
            check_figure(&content.catalogue, REGIONS, &path, figure, Unit::Day, found);
            if figure.value.fract() != 0.0 || !(1.0..=366.0).contains(&figure.value) {
                let what = format!(
                    "given {}; allowed is a whole number from 1 to 366",
                    figure.value
                );
                found.note(REGIONS, &[&path[..], &["value"]].concat(), what);
            }
        }
        for (tag, words) in &content.languages {
            let key = format!("emergency.{id}");
            if words
                .get(&key)
                .is_some_and(|text| !text.contains(dial.as_str()))
            {
                found.missing(
                    &format!("languages/{tag}"),
                    format!("`{key}` has to show the number {dial}"),
                );
            }
        }
    }
}
