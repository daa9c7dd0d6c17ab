//! Before the treatment: what should stop or delay it, or be asked about first. It informs, and never decides.

mod decision;
mod not_again;

use chrono::{DateTime, Days, NaiveDate, TimeDelta, Utc};
use serde::{Deserialize, Serialize};

use crate::{
    catalogue::{
        Catalogue,
        caution::Grade,
        concern::{ConcernRule, Condition, Weight},
        flag::Flag,
        treatment::Lead,
    },
    patch_test::Outcome,
    visit::{Findings, Product, Treatment},
    words::Words,
};
pub use decision::{Decision, Told};
pub use not_again::NotAgain;

/// What is known before a treatment begins.
#[derive(Clone, Copy, Debug)]
pub struct Consultation<'a> {
    pub at: DateTime<Utc>,
    /// The date of that at the studio.
    pub local_date: NaiveDate,
    pub treatments: &'a [Treatment],
    pub findings: Findings,
    pub flags: &'a [Flag],
    /// Id of the studio's region.
    pub region: &'a str,
    /// Whole days since a retinoid was last used on the skin there; `None` when it is not known or still in use.
    pub retinoid_stopped_days: Option<u32>,
    /// What was done at earlier visits, and when.
    pub earlier: &'a [(Treatment, NaiveDate)],
    pub patch_tests: &'a [PatchTest],
    /// Days after which the studio asks for a new skin test, where it has a limit of its own.
    pub patch_test_days: Option<u32>,
    /// Products of today, as far as they are entered, and what is not to be used again for this client.
    pub products: &'a [Product],
    pub not_again: &'a [NotAgain],
}

/// A skin test for one treatment; from the record by [`crate::patch_test::before_treatment`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PatchTest {
    pub treatment: Treatment,
    pub applied_at: DateTime<Utc>,
    /// What the skin showed; `None` until somebody has looked.
    pub outcome: Option<Outcome>,
    /// Whether today's product is another than the one that was tested.
    pub product_changed: bool,
}

/// Something to think of before beginning.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Concern {
    pub id: String,
    pub weight: Weight,
    /// Of today's treatments those it touches, in the order of [`Treatment::ALL`].
    pub treatments: Vec<Treatment>,
    /// The number in the sentence, in the unit in which the rule speaks.
    pub n: Option<u32>,
    /// From when on it no longer stands, where that can be said: the latest over the treatments.
    pub clears: Option<Clears>,
    pub grade: Grade,
    pub sources: Vec<String>,
    /// The products that it is about, by name; none where it is about no product.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub products: Vec<String>,
}

/// When waiting is over.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Clears {
    /// A date at the studio.
    On(NaiveDate),
    At(DateTime<Utc>),
}

impl Concern {
    /// The sentence for the artist.
    pub fn sentence(&self, words: &Words) -> String {
        let treatments = self.treatments.iter();
        let named: Vec<String> = treatments
            .map(|one| words.say(&format!("treatment.{one}")).to_owned())
            .collect();
        let n = self.n.map(|n| n.to_string()).unwrap_or_default();
        let values = [
            ("treatments", words.list(&named)),
            ("products", words.list(&self.products)),
            ("n", n),
        ];
        let values = values
            .each_ref()
            .map(|(name, value)| (*name, value.as_str()));
        words.fill(&format!("concern.{}", self.id), &values)
    }
}

/// Every concern, the firmest first, then in the order of the rules. A treatment without an entry raises none.
pub fn concerns(catalogue: &Catalogue, before: &Consultation<'_>) -> Vec<Concern> {
    let mut concerns: Vec<Concern> = catalogue
        .concerns
        .iter()
        .filter(|rule| {
            rule.regions.is_empty() || rule.regions.iter().any(|one| one == before.region)
        })
        .filter_map(|rule| concern(catalogue, rule, before))
        .collect();
    // A stable sort keeps the order of the rules.
    concerns.sort_by_key(|concern| concern.weight);
    concerns
}

fn concern(
    catalogue: &Catalogue,
    rule: &ConcernRule,
    before: &Consultation<'_>,
) -> Option<Concern> {
    let mut today: Vec<Treatment> = before.treatments.to_vec();
    today.sort_unstable();
    today.dedup();
    let mut treatments = Vec::new();
    let mut clears = None;
    let mut n = None;
    for treatment in today {
        if !rule.treatments.contains(&treatment) {
            continue;
        }
        let lead = lead(catalogue, treatment, rule);
        if let Some(stands) = stands(catalogue, rule, treatment, lead, before) {
            treatments.push(treatment);
            clears = clears.max(stands.clears);
            n = n.max(stands.n.or(lead.and_then(Lead::named).map(|(_, n)| n)));
        }
    }
    (!treatments.is_empty()).then(|| Concern {
        id: rule.id.clone(),
        weight: rule.weight,
        treatments,
        n,
        clears,
        grade: rule.grade,
        sources: rule.sources.clone(),
        products: match rule.when {
            Condition::ProductNotAgain => not_again::entered(before.products, before.not_again),
            _ => Vec::new(),
        },
    })
}

/// The time that the treatment's own rule names.
fn lead(catalogue: &Catalogue, treatment: Treatment, rule: &ConcernRule) -> Option<Lead> {
    let id = rule.lead_of.as_ref()?;
    let entry = catalogue.treatments.get(&treatment)?;
    let named = entry.before_next.iter().find(|before| before.id == *id)?;
    Some(named.lead)
}

/// A concern that stands: its own number, and when it ends.
#[derive(Default)]
struct Stands {
    n: Option<u32>,
    clears: Option<Clears>,
}

/// Whether a rule holds for one treatment.
fn stands(
    catalogue: &Catalogue,
    rule: &ConcernRule,
    treatment: Treatment,
    lead: Option<Lead>,
    before: &Consultation<'_>,
) -> Option<Stands> {
    let plainly = |holds: bool| holds.then(Stands::default);
    let tests = before.patch_tests.iter();
    let newest = tests
        .filter(|test| test.treatment == treatment && test.applied_at <= before.at)
        .max_by_key(|test| test.applied_at);
    match &rule.when {
        Condition::Always => plainly(true),
        Condition::Found(findings) => plainly(findings.iter().any(|one| before.findings.has(*one))),
        Condition::Flagged(flags) => plainly(flags.iter().any(|one| before.flags.contains(one))),
        Condition::RetinoidNotStopped => retinoid(lead, before),
        Condition::TooSoon => too_soon(catalogue, treatment, before),
        Condition::PatchTestMissing => plainly(newest.is_none()),
        Condition::PatchTestTooYoung => {
            let Some(Lead::Hours(hours)) = lead else {
                return None;
            };
            let ready = newest?.applied_at + TimeDelta::hours(hours.into());
            (before.at < ready).then_some(Stands {
                n: None,
                clears: Some(Clears::At(ready)),
            })
        }
        Condition::PatchTestOlderThanDays(days) => {
            let days = before.patch_test_days.unwrap_or(*days);
            let old = before.at - newest?.applied_at > TimeDelta::days(days.into());
            old.then_some(Stands {
                n: Some(days),
                clears: None,
            })
        }
        Condition::ProductChanged => plainly(newest?.product_changed),
        Condition::PatchTestReacted => plainly(newest?.outcome == Some(Outcome::Reacted)),
        Condition::PatchTestUnclear => plainly(newest?.outcome == Some(Outcome::Unclear)),
        Condition::ProductNotAgain => {
            plainly(!not_again::entered(before.products, before.not_again).is_empty())
        }
        Condition::PatchTestUnread => plainly(newest?.outcome.is_none()),
    }
}

fn retinoid(lead: Option<Lead>, before: &Consultation<'_>) -> Option<Stands> {
    let Some(Lead::Days(days)) = lead else {
        return None;
    };
    match before.retinoid_stopped_days {
        Some(stopped) => (stopped < days).then(|| Stands {
            n: None,
            clears: on(before.local_date, days - stopped),
        }),
        None => before.findings.topical_retinoid.then(Stands::default),
    }
}

fn too_soon(
    catalogue: &Catalogue,
    treatment: Treatment,
    before: &Consultation<'_>,
) -> Option<Stands> {
    let earlier = before.earlier.iter();
    let last = earlier
        .filter(|(one, date)| *one == treatment && *date <= before.local_date)
        .map(|(_, date)| *date)
        .max()?;
    let days = catalogue
        .treatments
        .get(&treatment)?
        .interval
        .earliest_days
        .into();
    let clears = last.checked_add_days(Days::new(days))?;
    (before.local_date < clears).then_some(Stands {
        n: u32::try_from(days).ok(),
        clears: Some(Clears::On(clears)),
    })
}

fn on(date: NaiveDate, days: u32) -> Option<Clears> {
    date.checked_add_days(Days::new(days.into()))
        .map(Clears::On)
}
