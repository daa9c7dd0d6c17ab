//! A date to look one's best for, planned back, in words: for the client's page and for the artist's.

use chrono::{DateTime, NaiveDate, Utc};
use shared_types::{
    care_plan::{
        CarePlan, DateSpan, Practice,
        occasion::{Occasion, OccasionFor, Trouble, plan_back},
    },
    catalogue::treatment::Act,
    dates,
    visit::Treatment,
};

use mobile::client::still::Step;

use super::wall::Wall;
use crate::record::occasions::Date;

/// What a date is planned back from, and how it is told.
#[derive(Clone, Copy)]
pub struct Telling<'a> {
    pub wall: Wall<'a>,
    pub studio: &'a str,
    /// The advice of the visit before.
    pub plan: &'a CarePlan,
    pub finished_at: DateTime<Utc>,
    /// As the studio works now: it can be visited only when it is open.
    pub practice: &'a Practice,
}

impl Telling<'_> {
    /// The way to a date, as seen on a day.
    pub fn plan_back(&self, date: &Date, today: NaiveDate) -> Occasion {
        plan_back(&OccasionFor {
            plan: self.plan,
            visit_date: self.wall.day(self.finished_at),
            date: date.on,
            today,
            practice: self.practice,
            days_before: date.days_before,
        })
    }

    /// When to come, and whatever else there is to say, most important first.
    pub fn said(&self, date: &Date, found: &Occasion, today: NaiveDate) -> Vec<String> {
        let words = self.wall.words;
        let (least, most) = date.days_before;
        let mut said = Vec::new();
        if let Some(between) = found.in_between {
            said.push(self.span("occasion.between", between.span, today));
            if between.and_more {
                let days = self.longest_wait(&found.done).to_string();
                said.push(words.fill("occasion.between_more", &[("days", &days)]));
            }
        }
        if let Some(visit) = found.visit {
            said.push(self.span("occasion.visit", visit, today));
        }
        said.extend(self.troubles(date, found, today));
        if found.visit.is_some() {
            if found.troubles.iter().any(is_too_soon) {
                let done = words.list(&self.treatments(&found.done));
                said.push(words.fill("occasion.only", &[("done", &done)]));
            }
            let days = [("least", least), ("most", most)].map(|(name, n)| (name, n.to_string()));
            let days = days.each_ref().map(|(name, n)| (*name, n.as_str()));
            said.push(words.fill("occasion.why", &days));
        }
        said
    }

    /// What to do or to leave, in order; then what still has to be left on the date itself.
    pub fn steps(&self, found: &Occasion, today: NaiveDate) -> Vec<Step> {
        let words = self.wall.words;
        let date = |on| dates::date(words, on, today);
        let mut steps: Vec<Step> = found
            .preparations
            .iter()
            .map(|one| {
                let key = match one.rule.act {
                    Act::Do => "occasion.by",
                    Act::Leave | Act::Tell => "occasion.from",
                };
                Step {
                    when: words.fill(key, &[("date", &date(one.on))]),
                    what: one.rule.sentence(words),
                }
            })
            .collect();
        for whenever in [true, false] {
            let of_kinds = found
                .still
                .iter()
                .filter(|one| one.whenever == whenever)
                .filter_map(|one| self.plan.cautions.iter().find(|c| c.kind == one.kind))
                .map(|caution| caution.what(words));
            let added = found
                .still_added
                .iter()
                .filter(|(_, one)| *one == whenever)
                .filter_map(|(id, _)| self.plan.added.iter().find(|added| added.id == *id))
                .map(|added| added.what.clone());
            let what: Vec<String> = of_kinds
                .chain(added)
                .map(|what| format!("{}.", what.trim_end_matches('.')))
                .collect();
            let when = match found.visit {
                Some(_) if whenever => words.say("occasion.still").to_owned(),
                Some(visit) => words.fill("occasion.still_last", &[("date", &date(visit.until))]),
                None => continue,
            };
            if !what.is_empty() {
                steps.push(Step {
                    when,
                    what: what.join(" "),
                });
            }
        }
        steps
    }

    fn troubles(&self, date: &Date, found: &Occasion, today: NaiveDate) -> Vec<String> {
        let words = self.wall.words;
        let least = date.days_before.0.to_string();
        let fill = |key: &str, more: &[(&str, &str)]| {
            let mut values = vec![("studio", self.studio), ("least", least.as_str())];
            values.extend(more);
            words.fill(&format!("occasion.trouble.{key}"), &values)
        };
        let mut said = Vec::new();
        if found.visit.is_none() && found.troubles.iter().any(is_too_soon) {
            said.push(fill("soon_after", &[]));
        }
        for trouble in &found.troubles {
            match trouble {
                Trouble::Past => said.push(fill("past", &[])),
                Trouble::NoDayLeft => said.push(fill("no_day_left", &[])),
                Trouble::Closed if found.visit.is_some() => said.push(fill("closed", &[])),
                Trouble::Closed => said.push(fill("closed_none", &[])),
                Trouble::TooSoon {
                    treatment,
                    earliest,
                } => {
                    let earliest = dates::date(words, *earliest, today);
                    let key = format!("treatment.{treatment}");
                    let values = [("treatment", words.say(&key)), ("earliest", &earliest)];
                    said.push(fill("too_soon", &values));
                }
                Trouble::NoTime { rule } => {
                    said.push(fill("no_time", &[("sentence", &rule.sentence(words))]));
                }
                // All of them in one sentence, below.
                Trouble::Late { .. } => {}
            }
        }
        let late: Vec<Treatment> = found
            .troubles
            .iter()
            .filter_map(|trouble| match trouble {
                Trouble::Late { treatment } => Some(*treatment),
                _ => None,
            })
            .collect();
        if !late.is_empty() {
            let late = words.list(&self.treatments(&late));
            said.push(fill("late", &[("treatments", &late)]));
        }
        said
    }

    /// A sentence with a span of days; the one for a single day has its own words.
    fn span(&self, key: &str, span: DateSpan, today: NaiveDate) -> String {
        let date = |on| dates::date(self.wall.words, on, today);
        if span.from == span.until {
            let key = format!("{key}_one");
            return self.wall.words.fill(&key, &[("from", &date(span.from))]);
        }
        let values = [("from", date(span.from)), ("until", date(span.until))];
        let values = values.each_ref().map(|(name, date)| (*name, date.as_str()));
        self.wall.words.fill(key, &values)
    }

    fn treatments(&self, treatments: &[Treatment]) -> Vec<String> {
        super::visits::done(treatments, self.wall.words)
    }

    /// Days from one visit to the earliest next for whatever has to wait longest.
    fn longest_wait(&self, treatments: &[Treatment]) -> i64 {
        let visit = self.wall.day(self.finished_at);
        let windows = self.plan.next_visit.windows.iter();
        windows
            .filter(|window| treatments.contains(&window.treatment))
            .map(|window| (window.earliest - visit).num_days())
            .max()
            .unwrap_or(0)
    }
}

fn is_too_soon(trouble: &Trouble) -> bool {
    matches!(trouble, Trouble::TooSoon { .. })
}
