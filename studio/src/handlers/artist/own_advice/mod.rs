//! The studio's own cautions: all of them; one of the catalogue's to change; one to add; and what labels say.

pub mod add;
pub mod change;
pub mod labels;

use axum::{extract::State, response::Html};
use shared_types::{
    care_plan::own::{LONGEST_HOURS, OwnAdvice},
    page::{artist::Screen, own_advice::CautionsScreen},
};

use super::check::Check;
use crate::{
    error::Refusal,
    pages::{self, own_advice},
    record::versions,
    security::session::SignedIn,
    state::Shared,
};

/// Field and sentence, for each that needs mending.
type Faults = Vec<(String, String)>;

/// Digits that a number of hours may have.
const DIGITS: usize = 5;

/// `GET /studio/cautions`
pub async fn show(State(studio): State<Shared>, signed: SignedIn) -> Result<Html<String>, Refusal> {
    let particulars = pages::artist::particulars(&studio)?;
    let wall = pages::artist::wall(&studio, &particulars);
    let held = studio.record.read(versions::latest::<OwnAdvice>)?;
    let changed = wall.changed(held.as_ref(), signed.now);
    let own = held.map(|held| held.body).unwrap_or_default();
    let treatments = studio.content.catalogue.treatments.iter();
    let screen = CautionsScreen {
        changed,
        treatments: treatments
            .map(|(one, entry)| own_advice::treatment(&studio, *one, entry, &own, wall.words))
            .collect(),
        added: own_advice::added(&own, wall.words),
    };
    pages::artist::screen(&studio, &particulars, &signed, Screen::Cautions(screen))
}

/// The hours in the field `hours`; `None` when there are none, or when they cannot be read, which is noted.
fn read_hours(check: &mut Check<'_>) -> Option<u32> {
    let text = check.text("hours", DIGITS);
    if text.is_empty() {
        return None;
    }
    let hours = text.parse().ok();
    let hours = hours.filter(|hours| (1..=LONGEST_HOURS).contains(hours));
    if hours.is_none() {
        let most = LONGEST_HOURS.to_string();
        check.fault("hours", "fault.hours", &[("most", &most)]);
    }
    hours
}
