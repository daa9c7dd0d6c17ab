//! The times at which to look at a patch test.

use shared_types::catalogue::Catalogue;

use super::{Review, figures::check_figure};
use crate::files::PATCH_TEST;

pub fn check(catalogue: &Catalogue, found: &mut Review<'_>) {
    let rules = &catalogue.patch_test;
    if rules.looks.is_empty() {
        found.missing(PATCH_TEST, "name at least one time to look".to_owned());
    }
    let looks = rules.looks.len();
    for (at, (figure, unit)) in rules.all().enumerate() {
        let place = at.to_string();
        let path: &[&str] = if at < looks {
            &["looks", &place]
        } else {
            &["last_days"]
        };
        check_figure(catalogue, PATCH_TEST, path, figure, unit, found);
        if figure.value < 1.0 || figure.value.fract() != 0.0 {
            let what = format!("{}: write a whole number, 1 or more", figure.value);
            found.note(PATCH_TEST, &[path, &["value"]].concat(), what);
        }
    }
    let falls = rules
        .looks
        .windows(2)
        .position(|pair| matches!(pair, [one, next] if one.value >= next.value));
    if let Some(at) = falls {
        let place = (at + 1).to_string();
        let what = "the times to look have to rise from one to the next".to_owned();
        found.note(PATCH_TEST, &["looks", &place, "value"], what);
    }
}
