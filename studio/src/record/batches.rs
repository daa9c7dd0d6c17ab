//! Visits and reactions by batch of a product, counted from the record.

use std::collections::{BTreeMap, BTreeSet, HashMap, HashSet};

use rusqlite::Connection;
use shared_types::{
    urgency::{Level, Rules},
    visit::Product,
};
use uuid::Uuid;

use super::{
    RecordError,
    columns::{json, term},
    outcomes,
};
use crate::batches::{Counted, Counts, Serious};

/// Everything that was counted.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Tally {
    pub batches: Vec<Of>,
    pub visits: u32,
    /// Visits whose client opened the page.
    pub opened: u32,
    /// Visits at which a product was used whose batch nobody wrote down. They count among the others.
    pub without_batch: u32,
}

/// One batch, by product and batch as they were written last.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Of {
    pub product: String,
    pub counted: Counted,
}

/// What is known of how a visit went.
#[derive(Clone, Debug, Default)]
struct Outcome {
    /// Reported as something for the studio, or more urgent.
    reacted: bool,
    /// A box of the law is ticked for one of its reports.
    serious: bool,
    /// The rules that held for its reports.
    patterns: BTreeSet<String>,
}

/// Counts visits, each once, however many reports there are of it. A reaction is a report that was at any time more than
/// what is often seen. Batches are the same whatever the case and the blanks that they were written in.
pub fn tally(record: &Connection, rules: &Rules) -> Result<Tally, RecordError> {
    let outcomes = outcomes(record, rules)?;
    let opened = opened(record)?;
    let mut tally = Tally::default();
    let mut batches: BTreeMap<(String, String), (Option<Product>, HashSet<Uuid>)> = BTreeMap::new();
    let mut statement =
        record.prepare_cached("select id, products from visits order by finished_at, id")?;
    let mut rows = statement.query([])?;
    while let Some(row) = rows.next()? {
        let visit: Uuid = row.get("id")?;
        let products: Vec<Product> = json(row, "products")?;
        tally.visits += 1;
        tally.opened += u32::from(opened.contains(&visit));
        let (known, unknown): (Vec<_>, Vec<_>) = products
            .into_iter()
            .filter(|one| !plain(&one.name).is_empty())
            .partition(|one| !plain(&one.batch).is_empty());
        tally.without_batch += u32::from(!unknown.is_empty());
        for product in known {
            let key = (plain(&product.name), plain(&product.batch));
            let (written, visits) = batches.entry(key).or_default();
            *written = Some(product);
            visits.insert(visit);
        }
    }
    let all = counts(outcomes.values(), tally.visits);
    tally.batches = batches
        .into_values()
        .filter_map(|(written, visits)| Some((written?, visits)))
        .map(|(product, visits)| {
            let seen: Vec<&Outcome> = visits.iter().filter_map(|one| outcomes.get(one)).collect();
            let used = u32::try_from(visits.len()).unwrap_or(u32::MAX);
            let with = counts(seen.iter().copied(), used);
            Of {
                product: product.name,
                counted: Counted {
                    batch: Some(product.batch),
                    with,
                    without: rest(all, with),
                    serious: serious_of(&seen),
                },
            }
        })
        .collect();
    Ok(tally)
}

fn plain(written: &str) -> String {
    let words: Vec<String> = written.split_whitespace().map(str::to_lowercase).collect();
    words.join(" ")
}

fn counts<'a>(outcomes: impl Iterator<Item = &'a Outcome>, visits: u32) -> Counts {
    let (mut reactions, mut answered) = (0, 0);
    for outcome in outcomes {
        answered += 1;
        reactions += u32::from(outcome.reacted);
    }
    Counts {
        reactions,
        visits,
        answered: Some(answered),
    }
}

fn rest(all: Counts, with: Counts) -> Counts {
    let answered = all.answered.zip(with.answered);
    Counts {
        reactions: all.reactions - with.reactions,
        visits: all.visits - with.visits,
        answered: answered.map(|(all, with)| all - with),
    }
}

fn serious_of(seen: &[&Outcome]) -> Serious {
    let reports = seen.iter().filter(|one| one.serious).count();
    let mut patterns: HashMap<&str, u32> = HashMap::new();
    for pattern in seen.iter().flat_map(|one| &one.patterns) {
        *patterns.entry(pattern).or_default() += 1;
    }
    Serious {
        reports: u32::try_from(reports).unwrap_or(u32::MAX),
        // Whether the product may explain it is nobody's to say here: the record holds facts.
        plausible: 0,
        same_pattern: patterns.into_values().max().unwrap_or(0),
    }
}

/// How the visits went whose clients answered at all.
fn outcomes(record: &Connection, rules: &Rules) -> Result<HashMap<Uuid, Outcome>, RecordError> {
    let mut outcomes: HashMap<Uuid, Outcome> = HashMap::new();
    // Each report as it was judged when it came, and again each time its sender said how it went.
    let mut statement = record.prepare_cached(
        "select visit, id as report, level, rules from reports
         union all
         select reports.visit, reports.id, follow_ups.level, follow_ups.rules
         from follow_ups join reports on reports.id = follow_ups.report",
    )?;
    let mut rows = statement.query([])?;
    while let Some(row) = rows.next()? {
        let level: Level = term(row, "level")?;
        let held: Vec<String> = json(row, "rules")?;
        let outcome = outcomes.entry(row.get("visit")?).or_default();
        if level < Level::Studio {
            continue;
        }
        outcome.reacted = true;
        outcome.serious |= outcomes::is_serious(record, row.get("report")?)?;
        outcome.patterns.extend(pattern(rules, held));
    }
    Ok(outcomes)
}

/// The signs of a report, as the rules that held for it: those that only raise it, or stand for what is not known, are no
/// signs. `None` when nothing else held.
fn pattern(rules: &Rules, mut held: Vec<String>) -> Option<String> {
    held.retain(|id| {
        let rule = rules.rules.iter().find(|rule| rule.id == *id);
        rule.is_some_and(|rule| rule.raises.is_none() && !rule.unknown)
    });
    held.sort();
    (!held.is_empty()).then(|| held.join(" "))
}

/// The visits whose page was opened.
fn opened(record: &Connection) -> Result<HashSet<Uuid>, RecordError> {
    let mut statement = record.prepare_cached(
        "select distinct visit from links join link_events on link_events.link = links.id
         where kind = 'opened' and visit is not null",
    )?;
    let visits = statement.query_map([], |row| row.get(0))?;
    Ok(visits.collect::<Result<_, _>>()?)
}
