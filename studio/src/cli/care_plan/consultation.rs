//! Before the treatment, as the command line asks and answers it. The time of the question is the end of the visit.

use chrono::{DateTime, NaiveDate, SecondsFormat, Utc};
use content::Content;
use serde::{Deserialize, Serialize};
use shared_types::{
    catalogue::concern::Weight,
    consultation::{Clears, Concern, Consultation, PatchTest, concerns},
    patch_test::Outcome,
    visit::Treatment,
    words::Words,
};

use super::super::CliError;
use shared_types::care_plan::PlanFor;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Question {
    /// Id of a region of the content.
    region: String,
    retinoid_stopped_days: Option<u32>,
    #[serde(default)]
    earlier: Vec<Earlier>,
    #[serde(default)]
    patch_tests: Vec<Tested>,
    patch_test_days: Option<u32>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Earlier {
    treatment: Treatment,
    date: NaiveDate,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Tested {
    treatment: Treatment,
    /// RFC 3339.
    applied_at: DateTime<Utc>,
    /// `null` until somebody has looked and could say.
    reacted: Option<bool>,
    /// Somebody looked and could not say.
    #[serde(default)]
    unclear: bool,
    #[serde(default)]
    product_changed: bool,
}

#[derive(Serialize)]
pub struct Line {
    id: String,
    weight: Weight,
    treatments: Vec<Treatment>,
    /// From when on it no longer stands: a date at the studio, or an instant.
    #[serde(skip_serializing_if = "Option::is_none")]
    clears: Option<String>,
    source: Vec<String>,
    text: String,
}

/// What should stop or delay the treatments of a visit, or be asked about first.
///
/// # Errors
/// A region that the content does not have.
pub fn answer(
    question: &Question,
    visit: &PlanFor<'_>,
    content: &Content,
    words: &Words,
) -> Result<Vec<Line>, CliError> {
    if !content.regions.contains_key(&question.region) {
        let known: Vec<&str> = content.regions.keys().map(String::as_str).collect();
        let allowed = format!("one of {}", known.join(", "));
        let field = "consultation.region";
        return Err(CliError::value(field, &question.region, allowed));
    }
    let earlier: Vec<(Treatment, NaiveDate)> = question
        .earlier
        .iter()
        .map(|one| (one.treatment, one.date))
        .collect();
    let patch_tests: Vec<PatchTest> = question
        .patch_tests
        .iter()
        .map(|test| PatchTest {
            treatment: test.treatment,
            applied_at: test.applied_at,
            outcome: match test.reacted {
                Some(true) => Some(Outcome::Reacted),
                _ if test.unclear => Some(Outcome::Unclear),
                Some(false) => Some(Outcome::NoReaction),
                None => None,
            },
            product_changed: test.product_changed,
        })
        .collect();
    let before = Consultation {
        at: visit.finished_at,
        local_date: visit.local_date,
        treatments: visit.treatments,
        findings: visit.findings,
        flags: &visit.person.flags,
        region: &question.region,
        retinoid_stopped_days: question.retinoid_stopped_days,
        earlier: &earlier,
        patch_tests: &patch_tests,
        patch_test_days: question.patch_test_days,
        products: &[],
        not_again: &[],
    };
    let raised = concerns(&content.catalogue, &before);
    Ok(raised.into_iter().map(|one| line(one, words)).collect())
}

fn line(concern: Concern, words: &Words) -> Line {
    Line {
        text: concern.sentence(words),
        clears: concern.clears.map(|clears| match clears {
            Clears::On(date) => date.to_string(),
            Clears::At(at) => at.to_rfc3339_opts(SecondsFormat::AutoSi, true),
        }),
        id: concern.id,
        weight: concern.weight,
        treatments: concern.treatments,
        source: concern.sources,
    }
}
