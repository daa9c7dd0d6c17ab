//! When to come back, and why, in words.

use chrono::{DateTime, NaiveDate, Utc};
use shared_types::{
    care_plan::{Alternative, CarePlan, DateSpan, NextVisit, Timing, Window, WindowReason},
    dates,
    page::client::ComeBack,
    visit::Treatment,
    words::Words,
};

use crate::pages::{
    lengths::{about_weeks, weeks_or_days},
    visits::done,
    wall::Wall,
};

/// Shares (0 to 1) of the hairs that were there before.
pub(super) struct Share {
    pub visible: f64,
    pub graspable: f64,
}

/// The suggested time. Where hair was removed the reason is what will be back by then; else it is that of the treatment
/// that is ready last.
pub(super) fn come_back(
    plan: &CarePlan,
    wall: &Wall<'_>,
    finished: DateTime<Utc>,
    share: Option<&dyn Fn(f64) -> Share>,
) -> Option<ComeBack> {
    let next = &plan.next_visit;
    let span = next.suggested?;
    let calendar = Calendar {
        words: wall.words,
        visit: wall.day(finished),
    };
    let why = match share {
        Some(share) => {
            let at = share(f64::from(calendar.day(span.from)));
            let of_ten = |share: f64| (share * 10.0).round().max(1.0).to_string();
            wall.words.fill(
                "window.back_by_then",
                &[
                    ("visible", &of_ten(at.visible)),
                    ("graspable", &of_ten(at.graspable)),
                ],
            )
        }
        None => calendar.why(next.windows.iter().max_by_key(|window| window.best)?),
    };
    let aim = next.led_by.map(|aim| format!("aim_why.{aim}"));
    let aim = aim.map(|key| wall.words.say(&key).to_owned());
    let (from, from_day) = calendar.written(span.from);
    let (until, until_day) = calendar.written(span.until);
    Some(ComeBack {
        from,
        until,
        from_day,
        until_day,
        why: aim.into_iter().chain([why]).collect::<Vec<_>>().join(" "),
        more: more(next, span, wall.words),
        windows: next
            .windows
            .iter()
            .map(|window| calendar.window(window))
            .collect(),
    })
}

/// Counts and writes dates beside that of the visit.
struct Calendar<'a> {
    words: &'a Words,
    visit: NaiveDate,
}

impl Calendar<'_> {
    fn day(&self, date: NaiveDate) -> u16 {
        u16::try_from((date - self.visit).num_days()).unwrap_or(u16::MAX)
    }

    fn written(&self, date: NaiveDate) -> (String, u16) {
        (dates::date(self.words, date, self.visit), self.day(date))
    }

    /// The treatment, and from when to when it is due by itself, and why.
    fn window(&self, window: &Window) -> (String, String) {
        let (from, _) = self.written(window.earliest);
        let (best, _) = self.written(window.best);
        let (until, _) = self.written(window.latest);
        let days = self.words.fill(
            "rebook.window",
            &[("from", &from), ("best", &best), ("until", &until)],
        );
        let due = format!("{days} {}", self.why(window));
        (name(window.treatment, self.words), due)
    }

    /// What the window follows; where the studio set other days than the model or the trade, both.
    fn why(&self, window: &Window) -> String {
        let plain = format!("window.{}", window.reason);
        let Some(usual) = &window.usual else {
            return self.words.say(&plain).to_owned();
        };
        let (best, _) = self.written(usual.best);
        let (earliest, _) = self.written(usual.earliest);
        let both = format!("window_own.{}", usual.reason);
        let both = self.words.fill(&both, &[("best", &best)]);
        if window.reason == WindowReason::OwnSooner {
            let sooner = self.words.fill(&plain, &[("earliest", &earliest)]);
            return format!("{both} {sooner}");
        }
        both
    }
}

/// What else there is to know about the suggested time, one sentence each.
fn more(next: &NextVisit, span: DateSpan, words: &Words) -> Vec<String> {
    let closed = next
        .no_open_day
        .then(|| words.say("rebook.no_open_day").to_owned());
    let waits = Timing::ALL.iter().filter_map(|timing| {
        let waiting: Vec<Treatment> = next
            .waits
            .iter()
            .filter(|wait| wait.timing == *timing)
            .map(|wait| wait.treatment)
            .collect();
        let list = words.list(&done(&waiting, words));
        (!list.is_empty()).then(|| words.fill(&format!("wait.{timing}"), &[("treatments", &list)]))
    });
    let alternative = next.alternative.iter().map(|one| tidy(one, span, words));
    closed.into_iter().chain(waits).chain(alternative).collect()
}

/// What coming at the usual time would catch, and how much longer to wait for more.
fn tidy(one: &Alternative, span: DateSpan, words: &Words) -> String {
    let of_ten = |thousandths: u16| match (thousandths + 50) / 100 {
        0 => words.say("rebook.share_few").to_owned(),
        n => words.fill("rebook.share", &[("n", &n.to_string())]),
    };
    let after = weeks_or_days(words, one.tidy_day);
    let tidy = words.fill(
        "rebook.tidy",
        &[
            ("treatment", &name(one.treatment, words)),
            ("after", &after),
            ("share", &of_ten(one.tidy_share)),
        ],
    );
    if one.full_from <= span.from {
        return tidy;
    }
    let weeks = about_weeks(words, one.full_day);
    let full = words.fill(
        "rebook.full",
        &[("after", &weeks), ("share", &of_ten(one.full_share))],
    );
    format!("{tidy} {full}")
}

fn name(treatment: Treatment, words: &Words) -> String {
    words.say(&format!("treatment.{treatment}")).to_owned()
}
