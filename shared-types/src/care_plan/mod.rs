//! What the client of one visit is told: what to avoid until when, when to come back, and what to do before that.

mod added;
mod after;
mod alternative;
mod before;
mod cautions;
pub mod learned;
mod next_visit;
pub mod occasion;
pub mod own;
mod person;
mod places;
mod practice;
mod said_first;
mod suggest;
mod window_days;

use chrono::{DateTime, NaiveDate, Utc};
use serde::{Deserialize, Serialize};

use crate::{
    catalogue::{
        Catalogue,
        caution::Grade,
        treatment::{Act, Lead, Removal, TreatmentEntry},
    },
    regrowth::{
        curve::Regrowth,
        parameters::{ParameterError, Parameters},
    },
    visit::{Area, CautionKind, Finding, Findings, Treatment},
};
pub use added::Added;
pub use after::{After, Ordinary, Tip, Warning};
pub use alternative::Alternative;
pub use next_visit::{NextVisit, Usual, Window, WindowReason};
use own::{Beside, Whose};
pub use person::{Paces, Person};
pub use places::your;
pub use practice::{Aim, Bound, OwnInterval, Practice, PracticeFault, Weekday};
pub use said_first::{SAID_FIRST, said_first};
pub use suggest::{DateSpan, Timing, Wait};

/// The visit as far as a care plan depends on it.
#[derive(Clone, Copy, Debug)]
pub struct PlanFor<'a> {
    /// The end of the visit: cautions count elapsed hours from here.
    pub finished_at: DateTime<Utc>,
    /// The date of that at the studio: regrowth counts whole days from here.
    pub local_date: NaiveDate,
    /// At least one; a term that is there twice counts once.
    pub treatments: &'a [Treatment],
    pub findings: Findings,
    pub person: &'a Person,
    pub practice: &'a Practice,
    /// What the studio and the labels say beside the catalogue's cautions.
    pub beside: Beside<'a>,
}

/// The advice of one visit, as it is shown, and frozen with the visit.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct CarePlan {
    /// One of each kind at most, sorted by end, then in the order of [`CautionKind::ALL`].
    pub cautions: Vec<Caution>,
    pub next_visit: NextVisit,
    /// In the order of the treatments and of their catalogue entries, each id once.
    pub before_next_visit: Vec<Before>,
    /// How it settles, and how to care for it.
    #[serde(default)]
    pub after: After,
    /// The cautions that the studio has added, sorted by end.
    #[serde(default)]
    pub added: Vec<Added>,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Caution {
    pub kind: CautionKind,
    /// Where: of the treatments that call for it, each once.
    #[serde(default)]
    pub areas: Vec<Area>,
    /// In which other words it is put, so that it does not contradict what the artist did.
    #[serde(default)]
    pub said: Option<String>,
    /// Keys of the sentences that give the reasons, that of the rule whose hours count first.
    #[serde(default)]
    pub why: Vec<String>,
    /// What to leave, in the studio's own words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub own_what: Option<String>,
    /// Reasons in the words of a label or of the studio.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub own_why: Vec<String>,
    /// Whether some of the words are the studio's own.
    #[serde(default)]
    pub reworded: bool,
    /// Who set the hours.
    #[serde(default)]
    pub whose: Whose,
    pub from: DateTime<Utc>,
    pub until: DateTime<Utc>,
    /// Elapsed hours from `from` to `until`.
    pub hours: u32,
    /// The treatments that call for it, then the findings that made it longer.
    pub because: Vec<Because>,
    /// Of the hours that count.
    pub grade: Grade,
    /// Ids of sources, those of the rule whose hours count first.
    pub sources: Vec<String>,
}

/// Something to do, or to leave, before the next visit; see [`Before::sentence`].
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Before {
    pub id: String,
    /// Where: of the treatments that call for it, each once.
    #[serde(default)]
    pub areas: Vec<Area>,
    #[serde(default)]
    pub act: Act,
    pub lead: Lead,
    pub because: Vec<Because>,
    pub grade: Grade,
    pub sources: Vec<String>,
}

/// Why something is advised.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(untagged)]
pub enum Because {
    Treatment(Treatment),
    Finding(Finding),
}

impl Because {
    /// The snake_case term, as in files and JSON.
    pub const fn term(self) -> &'static str {
        match self {
            Because::Treatment(one) => one.term(),
            Because::Finding(one) => one.term(),
        }
    }
}

#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum PlanError {
    #[error("no treatment was given; give at least one of {allowed}")]
    NoTreatment { allowed: String },
    #[error("there is no advice for `{given}` yet; there is for {allowed}")]
    NotOffered { given: Treatment, allowed: String },
    #[error("the catalogue has no hair figures for `{area}`; add them to the content")]
    NoHair { area: Area },
    #[error("the catalogue's hair figures for `{area}` do not work: {cause}")]
    Hair { area: Area, cause: ParameterError },
    #[error(
        "with the catalogue's figures for `{treatment}`, `{figure}` is never reached; mend the content"
    )]
    NeverReached {
        treatment: Treatment,
        figure: &'static str,
    },
    #[error("the calendar ends before the advice does; give an earlier end of the visit")]
    OutOfCalendar,
}

/// The advice for one visit.
///
/// # Errors
/// No treatment, a treatment without a catalogue entry, a date at the end of the calendar; and faults of the catalogue
/// that `content` refuses when it is read.
pub fn plan(catalogue: &Catalogue, visit: &PlanFor<'_>) -> Result<CarePlan, PlanError> {
    let entries = entries(catalogue, visit.treatments)?;
    let cautions = cautions::merged(&entries, visit)?;
    let done: Vec<Treatment> = entries.iter().map(|(treatment, _)| *treatment).collect();
    Ok(CarePlan {
        added: added::added(&done, visit)?,
        after: after::after(&catalogue.after, &entries, visit, &cautions)?,
        cautions,
        next_visit: next_visit::next_visit(catalogue, &entries, visit)?,
        before_next_visit: before::before(&entries, visit.findings),
    })
}

/// The regrowth of an area with the catalogue's figures, in someone whose clock runs `pace` times as fast as most people's.
///
/// # Errors
/// An area without figures, or with figures that do not work.
pub fn regrowth(catalogue: &Catalogue, area: Area, pace: f64) -> Result<Regrowth, PlanError> {
    regrowth_of(area, hair(catalogue, area)?.at_pace(pace))
}

/// The regrowth of an area after this kind of removal: as many hairs break as it breaks.
///
/// # Errors
/// As [`regrowth`].
pub fn regrowth_after(
    catalogue: &Catalogue,
    area: Area,
    removal: &Removal,
) -> Result<Regrowth, PlanError> {
    regrowth_at(catalogue, area, removal, 1.0)
}

/// The same in someone whose clock runs `pace` times as fast.
///
/// # Errors
/// As [`regrowth`].
pub fn regrowth_at(
    catalogue: &Catalogue,
    area: Area,
    removal: &Removal,
    pace: f64,
) -> Result<Regrowth, PlanError> {
    let parameters = Parameters {
        broken_fraction: removal.broken_fraction.value,
        ..hair(catalogue, area)?
    };
    regrowth_of(area, parameters.at_pace(pace))
}

fn hair(catalogue: &Catalogue, area: Area) -> Result<Parameters, PlanError> {
    let figures = catalogue.hair.get(&area);
    figures
        .map(Parameters::from)
        .ok_or(PlanError::NoHair { area })
}

fn regrowth_of(area: Area, parameters: Parameters) -> Result<Regrowth, PlanError> {
    Regrowth::new(parameters).map_err(|cause| PlanError::Hair { area, cause })
}

type Entry<'a> = (Treatment, &'a TreatmentEntry);

/// The entries of the treatments in the order of [`Treatment::ALL`], each once.
fn entries<'a>(
    catalogue: &'a Catalogue,
    treatments: &[Treatment],
) -> Result<Vec<Entry<'a>>, PlanError> {
    let mut given = treatments.to_vec();
    given.sort_unstable();
    given.dedup();
    if given.is_empty() {
        return Err(PlanError::NoTreatment {
            allowed: catalogue.offered(),
        });
    }
    given
        .into_iter()
        .map(|given| match catalogue.treatments.get(&given) {
            Some(entry) => Ok((given, entry)),
            None => Err(PlanError::NotOffered {
                given,
                allowed: catalogue.offered(),
            }),
        })
        .collect()
}

/// Adds what is not there yet, keeping the order.
fn join<T: PartialEq>(all: &mut Vec<T>, more: impl IntoIterator<Item = T>) {
    for one in more {
        if !all.contains(&one) {
            all.push(one);
        }
    }
}
