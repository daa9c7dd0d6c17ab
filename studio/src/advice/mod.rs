//! What the client of a visit is told: worked out once, when the visit is recorded, and kept with the visit as it was
//! shown. Better rules or words later change what the next client is told, never what this one was.

mod after;
mod areas;
mod cautions;
mod come_back;
pub mod pace;
mod weeks;
mod zones;

use chrono::NaiveDate;
use chrono_tz::Tz;
use content::Content;
use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};
use shared_types::{
    care_plan::{self, CarePlan, Person, PlanError, PlanFor, Practice, own::Beside},
    page::{
        client::{AfterList, CautionCard, Weeks},
        zones::ZonesCard,
    },
    visit::Visit,
    zones::Zones,
};

pub use zones::earlier_zones;

use crate::{
    pages::{visits::done, wall::Wall},
    record::{RecordError, advice::GivenAdvice},
};

/// The advice as the page shows it. A field that came later has a default, so that advice given before still reads.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Advice {
    pub done: Vec<String>,
    pub cautions: Vec<CautionCard>,
    #[serde(default)]
    pub after: Vec<AfterList>,
    pub weeks: Option<Weeks>,
    pub before_next: Vec<String>,
    #[serde(default)]
    pub zones: Option<ZonesCard>,
    /// What all of that was worded from: dates to count from, and rules by their ids.
    #[serde(default)]
    pub plan: Option<CarePlan>,
    /// By whose pace, as it was known then.
    #[serde(default)]
    pub person: Person,
}

/// Who and where a visit's advice is for.
#[derive(Clone, Copy)]
pub struct For<'a> {
    /// BCP 47.
    pub language: &'a str,
    pub zone: Tz,
    pub person: &'a Person,
    pub practice: &'a Practice,
    pub house: House<'a>,
    /// The marked zones of the client's earlier visits with their days at the studio, the latest first.
    pub earlier_zones: &'a [(NaiveDate, Zones)],
}

/// Which studio advises, and what it says beside the catalogue.
#[derive(Clone, Copy)]
pub struct House<'a> {
    pub name: &'a str,
    pub beside: Beside<'a>,
}

/// Why no advice could be given.
#[derive(Debug, thiserror::Error)]
pub enum AdviceError {
    #[error(transparent)]
    Plan(#[from] PlanError),
    #[error("the content has no words in `{0}`")]
    NoLanguage(String),
    #[error("the advice could not be written down: {0}")]
    Json(#[from] serde_json::Error),
}

impl Advice {
    /// Works out the advice for a visit in every language of the content, ready for the record: the language that is asked
    /// for comes first.
    pub fn give_in_all(
        content: &Content,
        visit: &Visit,
        whose: For<'_>,
    ) -> Result<Vec<GivenAdvice>, AdviceError> {
        let tags = content.languages.keys().map(String::as_str);
        let others = tags.filter(|tag| *tag != whose.language);
        let mut given = vec![Self::give(content, visit, whose)?];
        for language in others {
            given.push(Self::give(content, visit, For { language, ..whose })?);
        }
        Ok(given)
    }

    /// As [`Advice::give_in_all`], in the one language that is asked for.
    pub fn give(
        content: &Content,
        visit: &Visit,
        whose: For<'_>,
    ) -> Result<GivenAdvice, AdviceError> {
        let words = content
            .languages
            .get(whose.language)
            .ok_or_else(|| AdviceError::NoLanguage(whose.language.to_owned()))?;
        let wall = Wall {
            words,
            zone: whose.zone,
        };
        let plan = care_plan::plan(
            &content.catalogue,
            &PlanFor {
                finished_at: visit.finished_at,
                local_date: wall.day(visit.finished_at),
                treatments: &visit.treatments,
                findings: visit.findings,
                person: whose.person,
                practice: whose.practice,
                beside: whose.house.beside,
            },
        )?;
        let advice = Advice {
            done: done(&visit.treatments, words),
            cautions: cautions::cards(
                &content.catalogue,
                &plan,
                &wall,
                visit.finished_at,
                whose.house.name,
            ),
            after: after::lists(&plan, &wall, visit.finished_at),
            weeks: Some(weeks::weeks(
                &content.catalogue,
                visit,
                &plan,
                &whose,
                &wall,
            )?),
            before_next: plan
                .before_next_visit
                .iter()
                .map(|before| before.sentence(words))
                .collect(),
            zones: zones::card(
                &content.catalogue,
                visit,
                whose.earlier_zones,
                whose.person,
                &wall,
            )?,
            plan: Some(plan),
            person: whose.person.clone(),
        };
        let body = serde_json::to_string(&advice)?;
        Ok(GivenAdvice {
            language: whose.language.to_owned(),
            content_version: content.version.clone(),
            sha256: Sha256::digest(body.as_bytes()).into(),
            body,
        })
    }

    /// The advice that was given.
    pub fn read(given: &GivenAdvice) -> Result<Self, RecordError> {
        serde_json::from_str(&given.body)
            .map_err(|e| RecordError::Unreadable(format!("advice: {e}")))
    }
}

#[cfg(test)]
mod tests;
