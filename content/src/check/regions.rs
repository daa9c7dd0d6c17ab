//! Emergency numbers: one that is wrong could cost a life, one that is missing too.

use super::Review;
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
