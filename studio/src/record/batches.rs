//! Visits and reactions by batch of a product, counted from the record.

use std::collections::{BTreeMap, BTreeSet, HashMap, HashSet};

use rusqlite::Connection;
use shared_types::{
    outcome::ReExposure,
    urgency::{Answers, Field, Level, Rules},
    visit::{Product, plain},
};
use uuid::Uuid;

use super::{
    RecordError,
    columns::{json, term},
    outcomes,
};
use crate::batches::{Counted, Counts, Serious, signs};

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
    /// The serious reports after its visits.
    pub serious: Vec<Uuid>,
}

/// What is known of how a visit went.
#[derive(Clone, Debug, Default)]
struct Outcome {
    /// Reported as something for the studio, or more urgent, or serious.
    reacted: bool,
    serious: Vec<Uuid>,
    /// Whether the product may explain one of the serious ones.
    plausible: bool,
    signs: BTreeSet<Field>,
}

/// Counts visits, each once, however many reports there are of it. A reaction is a report that was at any time more than
/// what is often seen, or with a box of the law ticked, however mild it sounded. Batches are the same whatever the case and the blanks that they were written in.
pub fn tally(record: &Connection, rules: &Rules) -> Result<Tally, RecordError> {
    let mut outcomes = outcomes(record, rules)?;
    let opened = opened(record)?;
    let mut tally = Tally::default();
    let mut batches: BTreeMap<(String, String), (Option<Product>, HashSet<Uuid>)> = BTreeMap::new();
    let mut statement =
        record.prepare_cached("select id, products from visits order by finished_at, rowid")?;
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
        if known.len() + unknown.len() > 1
            && let Some(outcome) = outcomes.get_mut(&visit)
        {
            // Which of them was used again nobody noted.
            outcome.plausible = !outcome.serious.is_empty();
        }
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
                serious: seen.iter().flat_map(|one| one.serious.clone()).collect(),
            }
        })
        .collect();
    Ok(tally)
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
    let count = |which: fn(&Outcome) -> bool| {
        u32::try_from(seen.iter().filter(|one| which(one)).count()).unwrap_or(u32::MAX)
    };
    let mut alike: HashMap<Field, u32> = HashMap::new();
    for sign in seen.iter().flat_map(|one| &one.signs) {
        *alike.entry(*sign).or_default() += 1;
    }
    Serious {
        reports: count(|one| !one.serious.is_empty()),
        plausible: count(|one| one.plausible),
        same_pattern: alike.into_values().max().unwrap_or(0),
    }
}

/// How the visits went whose clients answered at all.
fn outcomes(record: &Connection, rules: &Rules) -> Result<HashMap<Uuid, Outcome>, RecordError> {
    let mut outcomes: HashMap<Uuid, Outcome> = HashMap::new();
    let mut statement = record
        .prepare_cached("select id, visit, answers, level from reports order by received_at")?;
    let mut rows = statement.query([])?;
    while let Some(row) = rows.next()? {
        let report = row.get("id")?;
        let level = most_urgent(record, report, term(row, "level")?)?;
        let outcome = outcomes.entry(row.get("visit")?).or_default();
        let (serious, plausible) = serious(record, report)?;
        outcome.plausible |= plausible;
        if serious {
            outcome.serious.push(report);
        }
        if serious || level >= Level::Studio {
            outcome.reacted = true;
            let answers: Answers = json(row, "answers")?;
            outcome.signs.extend(signs(rules, &answers));
        }
    }
    Ok(outcomes)
}

/// The most urgent that a report ever was: as it was judged when it came, and again each time its sender said how it went.
fn most_urgent(record: &Connection, report: Uuid, first: Level) -> Result<Level, RecordError> {
    let mut statement = record.prepare_cached("select level from follow_ups where report = ?1")?;
    let mut rows = statement.query([report])?;
    let mut most = first;
    while let Some(row) = rows.next()? {
        most = most.max(term(row, "level")?);
    }
    Ok(most)
}

/// Whether a box of the law is ticked for a report, and whether the product may explain it. Nothing is reckoned here: as a
/// precaution it may, until an artist noted that it was used again and nothing happened. What else an artist wrote is for
/// whoever assesses it to weigh; whether there is text in a field ("none known") says nothing.
fn serious(record: &Connection, report: Uuid) -> Result<(bool, bool), RecordError> {
    let noted = outcomes::latest(record, report)?;
    let serious = noted.filter(|noted| noted.outcome.is_serious());
    Ok(serious.map_or((false, false), |noted| {
        let speaks_for_it = noted.outcome.re_exposure == Some(ReExposure::Negative);
        (true, !speaks_for_it)
    }))
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
