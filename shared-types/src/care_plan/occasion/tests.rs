use chrono::{DateTime, TimeDelta, Utc};
use proptest::prelude::*;
use serde_json::json;

use super::*;
use crate::care_plan::{Added, Caution, Weekday};

fn day(text: &str) -> NaiveDate {
    text.parse().unwrap()
}

fn after(visit: NaiveDate, days: u64) -> NaiveDate {
    visit + Days::new(days)
}

/// Read as plans are read that were kept, so that whatever a plan holds beside has its default.
fn kept<T: serde::de::DeserializeOwned>(json: serde_json::Value) -> T {
    serde_json::from_value(json).unwrap()
}

fn window(treatment: Treatment, visit: NaiveDate, [earliest, best, latest]: [u64; 3]) -> Window {
    kept(json!({
        "treatment": treatment,
        "earliest": after(visit, earliest),
        "best": after(visit, best),
        "comfortable_until": after(visit, latest),
        "latest": after(visit, latest),
        "reason": "interval",
        "basis": "common_practice",
        "sources": [],
    }))
}

fn rule(id: &str, act: Act, lead: Lead, treatment: Treatment) -> Before {
    kept(json!({
        "id": id,
        "act": act,
        "lead": lead,
        "because": [treatment],
        "grade": "common_practice",
        "sources": [],
    }))
}

fn caution(kind: CautionKind, hours: u32, treatment: Treatment) -> Caution {
    kept(json!({
        "kind": kind,
        "from": DateTime::<Utc>::UNIX_EPOCH,
        "until": DateTime::<Utc>::UNIX_EPOCH + TimeDelta::hours(hours.into()),
        "hours": hours,
        "because": [treatment],
        "grade": "common_practice",
        "sources": [],
    }))
}

fn plan(
    cautions: Vec<Caution>,
    windows: Vec<Window>,
    suggested: Option<DateSpan>,
    rules: Vec<Before>,
) -> CarePlan {
    kept(json!({
        "cautions": cautions,
        "next_visit": {"windows": windows, "suggested": suggested},
        "before_next_visit": rules,
    }))
}

/// Wax and tint on one day, with the figures that stand in the content's files beside their sources: wax earliest 28,
/// latest 59 days and tint 28 to 42 (the model and the trade); retinoids 7 days before, 5 to 7 by a textbook (Day);
/// a skin test 48 hours before a tint, manufacturers' wording; tanning 24 hours before, PHSA.
fn wax_and_tint(visit: NaiveDate) -> CarePlan {
    plan(
        vec![
            caution(CautionKind::MakeUp, 24, Treatment::BrowWax),
            caution(CautionKind::Water, 24, Treatment::BrowTint),
            caution(CautionKind::Heat, 48, Treatment::BrowWax),
            caution(CautionKind::Actives, 72, Treatment::BrowWax),
        ],
        vec![
            window(Treatment::BrowWax, visit, [28, 32, 59]),
            window(Treatment::BrowTint, visit, [28, 35, 42]),
        ],
        Some(DateSpan {
            from: after(visit, 35),
            until: after(visit, 42),
        }),
        vec![
            rule(
                "no_plucking",
                Act::Leave,
                Lead::Throughout,
                Treatment::BrowWax,
            ),
            rule(
                "topical_retinoid",
                Act::Leave,
                Lead::Days(7),
                Treatment::BrowWax,
            ),
            rule(
                "oral_retinoid",
                Act::Tell,
                Lead::Months(6),
                Treatment::BrowWax,
            ),
            rule(
                "no_tanning",
                Act::Leave,
                Lead::Hours(24),
                Treatment::BrowWax,
            ),
            rule("patch_test", Act::Do, Lead::Hours(48), Treatment::BrowTint),
        ],
    )
}

const VISIT: &str = "2026-11-02";

/// The visit was on Monday 2 November 2026; two to three days before is common practice, no source.
fn back_from(date: &str, today: &str, closed: &[Weekday]) -> Occasion {
    let visit_date = day(VISIT);
    plan_back(&OccasionFor {
        plan: &wax_and_tint(visit_date),
        visit_date,
        date: day(date),
        today: day(today),
        practice: &closed_on(closed),
        days_before: (2, 3),
    })
}

fn closed_on(closed: &[Weekday]) -> Practice {
    Practice {
        closed: closed.iter().copied().collect(),
        ..Practice::default()
    }
}

fn span(from: &str, until: &str) -> Option<DateSpan> {
    Some(DateSpan {
        from: day(from),
        until: day(until),
    })
}

fn prepared(found: &Occasion) -> Vec<(&str, NaiveDate)> {
    found
        .preparations
        .iter()
        .map(|one| (one.rule.id.as_str(), one.on))
        .collect()
}

/// Saturday 12 December 2026 is day 40: Wednesday the 9th and Thursday the 10th lie three and two days before it.
#[test]
fn a_date_in_the_good_time_is_met_with_everything_prepared() {
    let found = back_from("2026-12-12", "2026-11-10", &[]);
    assert_eq!(found.visit, span("2026-12-09", "2026-12-10"));
    assert_eq!(found.done, [Treatment::BrowWax, Treatment::BrowTint]);
    assert_eq!(
        prepared(&found),
        [
            ("topical_retinoid", day("2026-12-02")),
            ("patch_test", day("2026-12-06")),
            ("no_tanning", day("2026-12-08")),
        ]
    );
    assert_eq!((found.troubles, found.in_between), (vec![], None));
    // Three days before, two whole days lie between; two days before, one.
    let still = [(CautionKind::Heat, false), (CautionKind::Actives, true)];
    let still = still.map(|(kind, whenever)| StillLeft { kind, whenever });
    assert_eq!(found.still, still);
}

/// As the cautions of the catalogue: three days before, two whole days lie between; two days before, one.
#[test]
fn what_the_studio_added_still_holds_on_the_date_too() {
    let added = |id: &str, treatment, hours| Added {
        id: id.to_owned(),
        what: id.to_owned(),
        why: String::new(),
        from: DateTime::UNIX_EPOCH,
        until: DateTime::UNIX_EPOCH,
        hours,
        because: vec![treatment],
    };
    let visit_date = day(VISIT);
    let mut plan = wax_and_tint(visit_date);
    plan.added = vec![
        added("over", Treatment::BrowWax, 24),
        added("last", Treatment::BrowWax, 48),
        added("whenever", Treatment::BrowTint, 49),
        added("of another", Treatment::LipWax, 400),
    ];
    let found = plan_back(&OccasionFor {
        plan: &plan,
        visit_date,
        date: day("2026-12-12"),
        today: day("2026-11-10"),
        practice: &closed_on(&[]),
        days_before: (2, 3),
    });
    let expected = [("last".to_owned(), false), ("whenever".to_owned(), true)];
    assert_eq!(found.still_added, expected);
}

#[test]
fn a_date_that_is_over_or_too_close_is_said_to_be() {
    let over = back_from("2026-12-12", "2026-12-13", &[]);
    assert_eq!(over.troubles, [Trouble::Past]);
    assert_eq!((over.visit, over.preparations), (None, vec![]));
    let tomorrow = back_from("2026-12-12", "2026-12-11", &[]);
    assert_eq!(
        (tomorrow.visit, tomorrow.troubles),
        (None, vec![Trouble::NoDayLeft])
    );
}

#[test]
fn a_date_soon_after_the_visit_names_the_earliest_day_of_each_treatment() {
    let found = back_from("2026-11-20", "2026-11-03", &[]);
    let too_soon = |treatment| Trouble::TooSoon {
        treatment,
        earliest: day("2026-11-30"),
    };
    assert_eq!(found.visit, None);
    assert_eq!(
        found.troubles,
        [too_soon(Treatment::BrowWax), too_soon(Treatment::BrowTint)]
    );
}

/// Day 28 is 30 November: the earlier of the two days is not allowed yet.
#[test]
fn the_earliest_day_of_a_treatment_cuts_the_days() {
    let found = back_from("2026-12-02", "2026-11-03", &[]);
    assert_eq!(found.visit, span("2026-11-30", "2026-11-30"));
}

#[test]
fn what_is_ready_later_is_left_out_and_named() {
    let visit_date = day(VISIT);
    let mut plan = wax_and_tint(visit_date);
    plan.next_visit.windows[1] = window(Treatment::BrowTint, visit_date, [42, 49, 56]);
    let found = plan_back(&OccasionFor {
        plan: &plan,
        visit_date,
        date: day("2026-12-12"),
        today: day("2026-11-10"),
        practice: &Practice::default(),
        days_before: (2, 3),
    });
    assert_eq!(found.done, [Treatment::BrowWax]);
    assert_eq!(found.visit, span("2026-12-09", "2026-12-10"));
    assert_eq!(
        found.troubles,
        [Trouble::TooSoon {
            treatment: Treatment::BrowTint,
            earliest: day("2026-12-14")
        }]
    );
    // Nothing of the tint's is asked for then.
    assert!(prepared(&found).iter().all(|(id, _)| *id != "patch_test"));
    assert!(found.still.iter().all(|one| one.kind != CautionKind::Water));
}

/// Days left out because there was no time before them: a skin test on 7 December is in time for the 10th only.
#[test]
fn the_days_that_leave_time_to_prepare_are_taken() {
    let visit_date = day(VISIT);
    let mut plan = wax_and_tint(visit_date);
    plan.before_next_visit
        .retain(|rule| rule.id == "patch_test");
    let on = |today: &str| {
        plan_back(&OccasionFor {
            plan: &plan,
            visit_date,
            date: day("2026-12-12"),
            today: day(today),
            practice: &Practice::default(),
            days_before: (2, 3),
        })
    };
    assert_eq!(on("2026-12-06").visit, span("2026-12-09", "2026-12-10"));
    let later = on("2026-12-07");
    assert_eq!(later.visit, span("2026-12-10", "2026-12-10"));
    assert_eq!(prepared(&later), [("patch_test", day("2026-12-07"))]);
    let too_late = on("2026-12-08");
    assert_eq!(too_late.visit, span("2026-12-09", "2026-12-10"));
    assert!(matches!(
        &too_late.troubles[..],
        [Trouble::NoTime { rule }] if rule.id == "patch_test"
    ));
}

/// 9 and 10 December 2026 are a Wednesday and a Thursday.
#[test]
fn closed_weekdays_are_left_out() {
    let open = back_from("2026-12-12", "2026-11-10", &[Weekday::Wednesday]);
    assert_eq!(open.visit, span("2026-12-10", "2026-12-10"));
    assert_eq!(open.troubles, []);
    let shut = [Weekday::Tuesday, Weekday::Wednesday, Weekday::Thursday];
    let shut = back_from("2026-12-12", "2026-11-10", &shut);
    assert_eq!(shut.visit, span("2026-12-07", "2026-12-07"));
    assert_eq!(shut.troubles, [Trouble::Closed]);
}

/// 15 January 2027 is day 74, beyond the latest of both: come on days 35 to 42, cut at day 71 − 28 = 43.
#[test]
fn a_date_beyond_the_latest_day_gets_a_visit_in_between() {
    let found = back_from("2027-01-15", "2026-11-10", &[]);
    assert_eq!(found.visit, span("2027-01-12", "2027-01-13"));
    assert_eq!(
        found.in_between,
        Some(InBetween {
            span: span("2026-12-07", "2026-12-14").unwrap(),
            and_more: false
        })
    );
    assert_eq!(found.troubles, []);
    // Day 35 + 42 is 18 January: a date in March asks for more than one.
    let far = back_from("2027-03-15", "2026-11-10", &[]).in_between;
    assert!(far.is_some_and(|between| between.and_more));
    // On day 64 there is no room for one: 61 − 28 is before day 35.
    let tight = back_from("2027-01-05", "2026-11-10", &[]);
    assert_eq!(tight.in_between, None);
    let late = |treatment| Trouble::Late { treatment };
    assert_eq!(
        tight.troubles,
        [late(Treatment::BrowWax), late(Treatment::BrowTint)]
    );
}

#[test]
fn advice_from_before_rules_said_what_they_ask_for_still_reads() {
    let old = r#"{"id":"no_tanning","lead":{"hours":24},"because":["brow_wax"],
                  "grade":"common_practice","sources":[]}"#;
    let rule: Before = serde_json::from_str(old).unwrap();
    assert_eq!(rule.act, Act::Leave);
}

fn leads() -> impl Strategy<Value = Lead> {
    prop_oneof![
        (0u32..200).prop_map(Lead::Hours),
        (0u32..30).prop_map(Lead::Days),
        (0u32..12).prop_map(Lead::Months),
        Just(Lead::Throughout),
    ]
}

prop_compose! {
    fn windows()(days in prop::collection::vec((0u64..90, 0u64..30, 0u64..30), 0..4)) -> Vec<Window> {
        let visit = day(VISIT);
        Treatment::ALL
            .iter()
            .zip(days)
            .map(|(treatment, (earliest, to_best, to_latest))| {
                let best = earliest + to_best;
                window(*treatment, visit, [earliest, best, best + to_latest])
            })
            .collect()
    }
}

prop_compose! {
    fn plans()(
        windows in windows(),
        rules in prop::collection::vec((0usize..3, leads(), 0usize..4), 0..6),
        cautions in prop::collection::vec((0usize..11, 0u32..200, 0usize..4), 0..6),
        (to_suggested, days_suggested) in (0u64..40, 0u64..20),
    ) -> CarePlan {
        let rules = (0..).zip(rules).map(|(at, (act, lead, of))| {
            rule(&format!("rule_{at}"), Act::ALL[act], lead, Treatment::ALL[of])
        });
        let cautions = cautions
            .into_iter()
            .map(|(kind, hours, of)| caution(CautionKind::ALL[kind], hours, Treatment::ALL[of]));
        // As early as all may be done, and a few days long.
        let suggested = windows.iter().map(|one| one.earliest).max().map(|from| DateSpan {
            from: from + Days::new(to_suggested),
            until: from + Days::new(to_suggested + days_suggested),
        });
        plan(cautions.collect(), windows, suggested, rules.collect())
    }
}

prop_compose! {
    fn practices()(open in 1u8..128) -> Practice {
        let closed = Weekday::ALL.iter().filter(|one| open & (1 << one.number() >> 1) == 0);
        closed_on(&closed.copied().collect::<Vec<_>>())
    }
}

proptest! {
    #[test]
    fn every_day_can_be_kept(
        plan in plans(), practice in practices(), today in 0u64..100, ahead in 0u64..120,
        least in 0u16..5, more in 0u16..4,
    ) {
        let visit_date = day(VISIT);
        let given = OccasionFor {
            plan: &plan,
            visit_date,
            // Now and then it is over.
            date: after(visit_date, today + ahead) - Days::new(3),
            today: after(visit_date, today),
            practice: &practice,
            days_before: (least, least + more),
        };
        let found = plan_back(&given);

        // Nothing lies in the past, and nothing on a day on which the studio is closed.
        let between = found.in_between.map(|one| one.span);
        for span in found.visit.iter().chain(&between) {
            prop_assert!(given.today <= span.from && span.from <= span.until);
            for end in [span.from, span.until] {
                prop_assert!(practice.is_open(end), "{end}");
            }
        }
        let days: Vec<NaiveDate> = found.preparations.iter().map(|one| one.on).collect();
        prop_assert!(days.iter().all(|on| *on >= given.today));
        // In order, and none of them after the visit.
        prop_assert!(days.is_sorted());

        let windows = &plan.next_visit.windows;
        let of = |treatment: &Treatment| windows.iter().find(|one| one.treatment == *treatment).unwrap();
        if let Some(visit) = found.visit {
            prop_assert!(visit.until + Days::new(least.into()) <= given.date);
            prop_assert!(days.iter().all(|on| *on <= visit.from));
            prop_assert!(!found.done.is_empty());
            for treatment in &found.done {
                prop_assert!(of(treatment).earliest <= visit.from, "{treatment}");
            }
            if let Some(between) = between {
                for treatment in &found.done {
                    let interval = of(treatment).earliest - visit_date;
                    prop_assert!(between.from - visit_date >= interval, "{treatment}");
                    prop_assert!(visit.from - between.until >= interval, "{treatment}");
                }
            }
        } else {
            prop_assert!(!found.troubles.is_empty() || windows.is_empty());
            prop_assert!(found.preparations.is_empty() && found.done.is_empty());
        }
    }

    /// Elapsed hours are kept at whatever hour of their days test and visit are, where no clock changes.
    #[test]
    fn hours_before_hold_at_any_time_of_day(hours in 0u32..200, visit in 0u64..400) {
        let visit = after(day(VISIT), visit);
        let begins = visit.and_time(chrono::NaiveTime::MIN);
        let done = rule("a", Act::Do, Lead::Hours(hours), Treatment::BrowTint);
        let day_after = date_of(&done, visit).unwrap() + Days::new(1);
        prop_assert!(begins - day_after.and_time(chrono::NaiveTime::MIN) >= TimeDelta::hours(hours.into()));
        let left = rule("a", Act::Leave, Lead::Hours(hours), Treatment::BrowTint);
        let from = date_of(&left, visit).unwrap().and_time(chrono::NaiveTime::MIN);
        prop_assert!(begins - from >= TimeDelta::hours(hours.into()));
    }
}
