//! How it settles, and how to care for it, in words.

use chrono::{DateTime, Utc};
use shared_types::{care_plan::CarePlan, page::client::AfterList};

use crate::pages::wall::Wall;

/// The lists that have something to say: care, what is ordinary and until when, what is not.
pub(super) fn lists(plan: &CarePlan, wall: &Wall<'_>, finished: DateTime<Utc>) -> Vec<AfterList> {
    let words = wall.words;
    let when = |at| wall.moment(at, finished).text;
    let tips = plan.after.tips.iter().map(|tip| {
        let tip_says = tip.sentence(words);
        match tip.from {
            Some(from) => words.fill(
                "settling.from",
                &[("when", &when(from)), ("what", &tip_says)],
            ),
            None => tip_says,
        }
    });
    let ordinary = plan.after.ordinary.iter().map(|one| {
        let what = one.sentence(words);
        words.fill(
            "settling.until",
            &[("what", &what), ("when", &when(one.until))],
        )
    });
    let not_ordinary = plan.after.not_ordinary.iter();
    let list = |title: &str, lines: Vec<String>| AfterList {
        title: words.say(title).to_owned(),
        lines,
    };
    let mut lists = vec![
        list("settling.care", tips.collect()),
        list("settling.ordinary", ordinary.collect()),
        list(
            "settling.not_ordinary",
            not_ordinary.map(|one| one.sentence(words)).collect(),
        ),
    ];
    lists.retain(|list| !list.lines.is_empty());
    lists
}
