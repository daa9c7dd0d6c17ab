//! `studio care-plan`: the advice for one visit.

use chrono::{DateTime, FixedOffset, SecondsFormat, Utc};
use chrono_tz::Tz;
use content::Content;
use serde::{Deserialize, Serialize};
use shared_types::{
    care_plan::{
        self, Because, Before, CarePlan, Caution, PlanError, PlanFor, Practice,
        own::{Beside, Label, OwnAdvice},
    },
    visit::{Findings, Treatment},
    words::Words,
};

use super::{CliError, input, observations::Observation};
use whose::ForecastAnswer;

mod after;
mod beside;
mod consultation;
mod next_visit;
mod whose;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Question {
    /// RFC 3339.
    finished_at: String,
    /// IANA name.
    time_zone: String,
    treatments: Vec<String>,
    #[serde(default)]
    skin: Findings,
    /// Of the client's hair, at earlier visits.
    #[serde(default)]
    observations: Vec<Observation>,
    /// What a forecast cannot follow.
    #[serde(default)]
    flags: Vec<String>,
    /// BCP 47; of the sentences.
    #[serde(default = "english")]
    language: String,
    /// The studio's own intervals, closed days and aim.
    #[serde(default)]
    practice: Practice,
    /// The studio's own cautions, and what the labels of the products used at the visit say.
    #[serde(default)]
    own: OwnAdvice,
    #[serde(default)]
    labels: Vec<Label>,
    /// What is known before the treatment; only then it is answered whether something stands against it.
    consultation: Option<consultation::Question>,
}

fn english() -> String {
    "en".to_owned()
}

#[derive(Serialize)]
struct Answer<'a> {
    cautions: Vec<CautionAnswer<'a>>,
    /// Those that the studio added.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    own_cautions: Vec<beside::Line<'a>>,
    next_visit: next_visit::NextVisitAnswer,
    before_next_visit: Vec<BeforeAnswer<'a>>,
    after: after::Answer<'a>,
    #[serde(skip_serializing_if = "Option::is_none")]
    forecast: Option<ForecastAnswer>,
    #[serde(skip_serializing_if = "Option::is_none")]
    concerns: Option<Vec<consultation::Line>>,
}

#[derive(Serialize)]
struct CautionAnswer<'a> {
    id: &'static str,
    from: String,
    until: String,
    until_local: String,
    hours: u32,
    because: Vec<&'static str>,
    source: &'a [String],
    /// Where the studio or a label has a say in it.
    #[serde(flatten)]
    beside: Option<beside::Whose<'a>>,
}

#[derive(Serialize)]
struct BeforeAnswer<'a> {
    id: &'a str,
    /// One of them, or none for the whole time between two visits.
    #[serde(skip_serializing_if = "Option::is_none")]
    hours: Option<u32>,
    #[serde(skip_serializing_if = "Option::is_none")]
    days: Option<u32>,
    #[serde(skip_serializing_if = "Option::is_none")]
    months: Option<u32>,
    because: Vec<&'static str>,
    source: &'a [String],
    text: String,
}

/// Answers one question in JSON with the plan in JSON; both as the design gives them.
///
/// # Errors
/// Input that is no JSON, an unknown field, a value that is not allowed: each by the name of its field.
pub fn care_plan(input: &str, content: &Content) -> Result<String, CliError> {
    let question: Question = input::read(input)?;
    let finished_at = instant(&question.finished_at)?;
    let zone = zone(&question.time_zone)?;
    let treatments = treatments(&question.treatments, &content.catalogue.offered())?;
    let words = language(&question.language, content)?;
    next_visit::check_practice(&question.practice, content)?;
    beside::check(&question.own, &question.labels, content)?;
    let person = whose::person(&question.observations, &question.flags, content)?;
    let visit = PlanFor {
        finished_at,
        local_date: finished_at.with_timezone(&zone).date_naive(),
        treatments: &treatments,
        findings: question.skin,
        person: &person,
        practice: &question.practice,
        beside: Beside {
            own: Some(&question.own),
            labels: &question.labels,
        },
    };
    let plan = care_plan::plan(&content.catalogue, &visit)
        .map_err(|error| refused(&error, &question, content))?;
    let concerns = question
        .consultation
        .as_ref()
        .map(|asked| consultation::answer(asked, &visit, content, words))
        .transpose()?;
    let answer = Answer {
        concerns,
        forecast: whose::answer(&person, content, words),
        ..answer(&plan, zone, words)
    };
    serde_json::to_string_pretty(&answer).map_err(CliError::Answer)
}

fn instant(given: &str) -> Result<DateTime<Utc>, CliError> {
    let allowed = "a date and time with its offset (RFC 3339), such as 2026-10-24T18:30:00+01:00";
    DateTime::<FixedOffset>::parse_from_rfc3339(given)
        .map(|at| at.to_utc())
        .map_err(|_| CliError::value("finished_at", given, allowed))
}

fn zone(given: &str) -> Result<Tz, CliError> {
    let allowed = "the IANA name of a time zone, such as Europe/London";
    given
        .parse()
        .map_err(|_| CliError::value("time_zone", given, allowed))
}

fn treatments(given: &[String], offered: &str) -> Result<Vec<Treatment>, CliError> {
    given
        .iter()
        .enumerate()
        .map(|(index, term)| {
            term.parse().map_err(|_| {
                CliError::value(
                    format!("treatments[{index}]"),
                    term,
                    format!("one of {offered}"),
                )
            })
        })
        .collect()
}

fn language<'a>(given: &str, content: &'a Content) -> Result<&'a Words, CliError> {
    let known = || {
        content
            .languages
            .keys()
            .cloned()
            .collect::<Vec<_>>()
            .join(", ")
    };
    content
        .languages
        .get(given)
        .ok_or_else(|| CliError::value("language", given, format!("one of {}", known())))
}

/// A plan that could not be made, by the field that is to blame.
fn refused(error: &PlanError, question: &Question, content: &Content) -> CliError {
    let offered = content.catalogue.offered();
    match error {
        PlanError::NoTreatment { .. } => {
            CliError::value("treatments", "[]", format!("at least one of {offered}"))
        }
        PlanError::NotOffered { given, .. } => {
            let index = question
                .treatments
                .iter()
                .position(|term| term == given.term())
                .unwrap_or_default();
            CliError::value(
                format!("treatments[{index}]"),
                given,
                format!("one of {offered}"),
            )
        }
        PlanError::OutOfCalendar => CliError::value(
            "finished_at",
            &question.finished_at,
            "an instant that leaves room for the advice",
        ),
        // The reader of the content has made a plan for each treatment, so these do not come up.
        PlanError::NoHair { .. } | PlanError::Hair { .. } | PlanError::NeverReached { .. } => {
            CliError::Shape {
                field: "content".to_owned(),
                what: error.to_string(),
            }
        }
    }
}

fn answer<'a>(plan: &'a CarePlan, zone: Tz, words: &Words) -> Answer<'a> {
    Answer {
        cautions: plan
            .cautions
            .iter()
            .map(|one| caution_answer(one, zone, words))
            .collect(),
        own_cautions: beside::answer(&plan.added, zone),
        next_visit: next_visit::answer(&plan.next_visit),
        before_next_visit: plan
            .before_next_visit
            .iter()
            .map(|one| before_answer(one, words))
            .collect(),
        after: after::answer(&plan.after, zone, words),
        forecast: None,
        concerns: None,
    }
}

fn caution_answer<'a>(caution: &'a Caution, zone: Tz, words: &Words) -> CautionAnswer<'a> {
    CautionAnswer {
        beside: beside::whose(caution, words),
        id: caution.kind.term(),
        from: caution.from.to_rfc3339_opts(SecondsFormat::AutoSi, true),
        until: caution.until.to_rfc3339_opts(SecondsFormat::AutoSi, true),
        until_local: caution
            .until
            .with_timezone(&zone)
            .to_rfc3339_opts(SecondsFormat::AutoSi, false),
        hours: caution.hours,
        because: terms(&caution.because),
        source: &caution.sources,
    }
}

fn before_answer<'a>(before: &'a Before, words: &Words) -> BeforeAnswer<'a> {
    let of = |unit| {
        before
            .lead
            .named()
            .filter(|(name, _)| *name == unit)
            .map(|(_, n)| n)
    };
    BeforeAnswer {
        id: &before.id,
        hours: of("hours"),
        days: of("days"),
        months: of("months"),
        because: terms(&before.because),
        source: &before.sources,
        text: before.sentence(words),
    }
}

fn terms(because: &[Because]) -> Vec<&'static str> {
    because.iter().map(|one| one.term()).collect()
}

#[cfg(test)]
mod tests;
