//! What holds for every report, from what was sent to what the studio decides.

use chrono::{DateTime, FixedOffset, TimeDelta, Utc};
use proptest::prelude::*;
use shared_types::{
    reaction::{Consents, Report},
    urgency::{Answer, Answers, Field, Level},
    visit::Treatment,
};

use crate::support::{HOUR, RULES, answers, nothing};

fn report(answers: Answers) -> Report {
    Report {
        answers,
        places: Vec::new(),
        words: "It itches.".to_owned(),
        reach: String::new(),
        consents: Consents {
            report: Some("1".to_owned()),
            ..Consents::default()
        },
        told: None,
        photos: 0,
    }
}

fn noon() -> DateTime<Utc> {
    "2026-10-25T12:00:00Z".parse().unwrap()
}

proptest! {
    #[test]
    fn every_rule_that_is_named_is_one_of_the_shipped_and_once(answers in answers()) {
        let report = report(answers);
        let named = report.judge(&RULES).rules;
        let known: Vec<&str> = RULES.rules.iter().map(|rule| rule.id.as_str()).collect();
        let places: Vec<_> = named.iter().map(|id| known.iter().position(|one| one == id)).collect();
        prop_assert!(places.iter().all(Option::is_some), "{named:?}");
        prop_assert!(places.is_sorted() && places.windows(2).all(|two| two[0] != two[1]), "{named:?}");
    }

    /// Whenever it comes it is taken, and from the fourth week on with the advice to see a clinician as well.
    #[test]
    fn no_report_comes_too_late(answers in answers(), minutes in 0..60 * 24 * 60_u32) {
        let report = report(answers).beside(&[Treatment::BrowWax], TimeDelta::minutes(minutes.into()));
        prop_assert_eq!(report.faults().len(), 0);
        // Whoever answered without network is judged by the time of the answers.
        let Answer::At(since) = report.answers.get(Field::HoursSinceVisit) else {
            return Err(TestCaseError::fail("the studio knows when the visit was"));
        };
        prop_assert!(since <= minutes);
        if since > 21 * 24 * HOUR {
            let verdict = report.judge(&RULES);
            prop_assert!(verdict.level >= Level::Studio && verdict.rules.contains(&"T14"), "{:?}", verdict);
            // Who is sent to somebody the same day needs no second word about it.
            let sent = verdict.level > Level::Studio || verdict.advice.contains(&"see_clinician");
            prop_assert!(sent, "{:?}", verdict);
        }
    }

    /// Times are told apart by what passed between them, whatever clocks on the wall show: here the night on which Europe
    /// puts its clocks back lies between, or an ocean.
    #[test]
    fn clocks_on_the_wall_do_not_matter(answers in answers(), hours in 0..100_i64, there in -12..=14_i32, here in -12..=14_i32) {
        let offset = |hours: i32| FixedOffset::east_opt(hours * 3600).unwrap();
        let visit = (noon() - TimeDelta::hours(hours)).with_timezone(&offset(there));
        let now = noon().with_timezone(&offset(here));
        let told = |since| report(answers.clone()).beside(&[], since).judge(&RULES);
        prop_assert_eq!(told(now - visit), told(TimeDelta::hours(hours)));
        let since = nothing(1000).with(Field::OnsetHours, Answer::At(1000 * HOUR));
        let since = report(since).beside(&[], now - visit);
        let passed = Answer::At(u32::try_from(hours).unwrap() * HOUR);
        prop_assert_eq!(since.answers.get(Field::HoursSinceVisit), passed);
        prop_assert_eq!(since.answers.get(Field::OnsetHours), passed, "what has begun did so before now");
    }
}
