//! How it settles, and how to care for it.

use chrono::{DateTime, TimeDelta, Utc};
use serde::{Deserialize, Serialize};

use super::{Caution, Entry, PlanError, PlanFor, join, your};
use crate::{
    catalogue::{after::AfterRules, caution::Grade},
    visit::{Area, Treatment},
    words::Words,
};

/// In the order of the catalogue's rules.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct After {
    pub ordinary: Vec<Ordinary>,
    pub not_ordinary: Vec<Warning>,
    pub tips: Vec<Tip>,
}

/// Something that is ordinary until then, and no longer.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Ordinary {
    pub id: String,
    pub until: DateTime<Utc>,
    /// Elapsed hours from the end of the visit.
    pub hours: u32,
    pub because: Vec<Treatment>,
    pub grade: Grade,
    pub sources: Vec<String>,
}

/// Something that is never ordinary.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Warning {
    pub id: String,
    pub because: Vec<Treatment>,
    pub grade: Grade,
    pub sources: Vec<String>,
}

/// How to care for it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Tip {
    pub id: String,
    pub areas: Vec<Area>,
    /// From when on, where a caution stands against it before; at once when `None`.
    pub from: Option<DateTime<Utc>>,
    pub because: Vec<Treatment>,
    pub grade: Grade,
    pub sources: Vec<String>,
}

pub(super) fn after(
    rules: &AfterRules,
    entries: &[Entry<'_>],
    visit: &PlanFor<'_>,
    cautions: &[Caution],
) -> Result<After, PlanError> {
    let because = |treatments: &[Treatment]| -> Vec<Treatment> {
        let done = entries.iter().map(|(treatment, _)| *treatment);
        done.filter(|one| treatments.contains(one)).collect()
    };
    let mut after = After::default();
    for rule in &rules.ordinary {
        let because = because(&rule.treatments);
        if !because.is_empty() {
            after.ordinary.push(Ordinary {
                id: rule.id.clone(),
                until: visit
                    .finished_at
                    .checked_add_signed(TimeDelta::hours(rule.hours.into()))
                    .ok_or(PlanError::OutOfCalendar)?,
                hours: rule.hours,
                because,
                grade: rule.grade,
                sources: rule.sources.clone(),
            });
        }
    }
    for rule in &rules.not_ordinary {
        let because = because(&rule.treatments);
        if !because.is_empty() {
            after.not_ordinary.push(Warning {
                id: rule.id.clone(),
                because,
                grade: rule.grade,
                sources: rule.sources.clone(),
            });
        }
    }
    for rule in &rules.tips {
        let because = because(&rule.treatments);
        if because.is_empty() || !visit.findings.any_of(&rule.only_with) {
            continue;
        }
        let mut areas = Vec::new();
        let treated = entries.iter().filter(|(one, _)| because.contains(one));
        join(&mut areas, treated.map(|(_, entry)| entry.area));
        // Wherever the caution is: nobody washes a chin and is sure to keep brows dry.
        let against = cautions
            .iter()
            .filter(|caution| rule.involves.contains(&caution.kind));
        after.tips.push(Tip {
            id: rule.id.clone(),
            from: against.map(|caution| caution.until).max(),
            areas,
            because,
            grade: rule.grade,
            sources: rule.sources.clone(),
        });
    }
    Ok(after)
}

impl Ordinary {
    /// What is ordinary, in the words of the client.
    pub fn sentence(&self, words: &Words) -> String {
        words.say(&format!("ordinary.{}", self.id)).to_owned()
    }
}

impl Warning {
    /// What is not ordinary, in the words of the client.
    pub fn sentence(&self, words: &Words) -> String {
        words.say(&format!("not_ordinary.{}", self.id)).to_owned()
    }
}

impl Tip {
    /// What to do, in the words of the client, with the treated places.
    pub fn sentence(&self, words: &Words) -> String {
        let area = your(&self.areas, words);
        words.fill(&format!("tip.{}", self.id), &[("area", &area)])
    }
}
