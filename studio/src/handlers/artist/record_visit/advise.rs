//! The advice of a visit that is recorded: by the client's earlier visits, and as the studio works now.

use shared_types::{
    care_plan::{
        Person, PlanError, Practice,
        own::{self, Beside, Label, OwnAdvice},
    },
    visit::Visit,
};

use super::{before, zones};
use crate::{
    advice::{self, Advice, AdviceError, House},
    error::Refusal,
    record::{advice::GivenAdvice, studio::Particulars, versions},
    state::Studio,
};

/// The advice in every language.
pub fn advise(
    studio: &Studio,
    particulars: &Particulars,
    past: &[Visit],
    visit: &Visit,
) -> Result<Vec<GivenAdvice>, Refusal> {
    let (practice, own, labels) = studio.record.read(|record| {
        let practice: Practice = versions::current(record)?;
        let own: OwnAdvice = versions::current(record)?;
        let labels: Vec<Label> = versions::current(record)?;
        Ok((practice, own, labels))
    })?;
    let labels = own::of_products(&labels, &visit.products);
    let person = person(studio, past, visit).map_err(no_advice)?;
    let earlier_zones = zones::earlier(past, visit, particulars.time_zone);
    Advice::give_in_all(
        &studio.content,
        visit,
        advice::For {
            language: studio.words(&particulars.language).0,
            zone: particulars.time_zone,
            person: &person,
            practice: &practice,
            house: House {
                name: &particulars.name,
                beside: Beside {
                    own: Some(&own),
                    labels: &labels,
                },
            },
            earlier_zones: &earlier_zones,
        },
    )
    .map_err(no_advice)
}

/// The client as they are at the end of this visit: what is seen at it counts for its own forecast.
fn person(studio: &Studio, past: &[Visit], visit: &Visit) -> Result<Person, PlanError> {
    let mut visits: Vec<Visit> = before(past, visit).cloned().collect();
    visits.push(visit.clone());
    Person::learned(&studio.content.catalogue, &visits)
}

fn no_advice(error: impl Into<AdviceError>) -> Refusal {
    let error = error.into();
    tracing::error!(%error, "no advice could be given");
    Refusal::Broken
}
