//! A report as the door reads it, from its bytes to the verdict. Whatever is sent: it is refused in words, or what is kept
//! of it reads back as the same and is judged the same.

#![no_main]

use std::sync::LazyLock;

use chrono::TimeDelta;
use content::Content;
use libfuzzer_sys::fuzz_target;
use shared_types::{
    reaction::{FollowUp, How, REACH_MAX, Report, WORDS_MAX},
    urgency::{Field, Level, Rules, Verdict},
    visit::Treatment,
};

static RULES: LazyLock<Rules> = LazyLock::new(|| {
    let content = Content::built_in().expect("the shipped content");
    content.catalogue.urgency.compiled()
});

fuzz_target!(|sent: &[u8]| {
    let report: Report = match serde_json::from_slice(sent) {
        Ok(report) => report,
        Err(error) => {
            assert!(!error.to_string().is_empty());
            return;
        }
    };
    is_judged(&report);
    let tidied = report.tidied();
    assert_eq!(tidied.clone().tidied(), tidied, "tidied once and for all");
    if !tidied.faults().is_empty() {
        return;
    }
    assert!(tidied.words.chars().count() <= WORDS_MAX);
    assert!(tidied.reach.chars().count() <= REACH_MAX);
    // As it is kept and read again.
    let kept = serde_json::to_string(&tidied).expect("a report can be written");
    assert_eq!(
        serde_json::from_str::<Report>(&kept).ok(),
        Some(tidied.clone())
    );

    let known = tidied.beside(
        &[Treatment::LashLift, Treatment::BrowTint],
        TimeDelta::hours(30),
    );
    let verdict = is_judged(&known);
    for how in How::ALL {
        let later = FollowUp { how: *how }.upon(&known, TimeDelta::hours(72));
        let now = is_judged(&later);
        // What is an emergency by its signs stays one: no follow-up talks it away but by its time.
        if *how == How::Worse && verdict.level == Level::Emergency {
            assert!(now.level >= Level::SameDay, "{:?} after {:?}", now, verdict);
        }
    }
});

fn is_judged(report: &Report) -> Verdict<'static> {
    let verdict = report.judge(&RULES);
    assert!(verdict.advice.len() > 1, "{verdict:?}");
    assert_eq!(verdict.rules.is_empty(), verdict.level == Level::Expected);
    let answered: Vec<Field> = report.answers.answered().collect();
    assert!(answered.iter().all(|field| !field.is_derived()));
    verdict
}
